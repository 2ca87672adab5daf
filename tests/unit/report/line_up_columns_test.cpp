#include "report/line_up_columns.hpp"

#include <cmath>
#include <set>

#include "hailwright/core/contract.hpp"
#include "support/catch.hpp"
#include "support/line_up_examples.hpp"
#include "support/table_cells.hpp"

using namespace hailwright;
using namespace hailwright::detail;
using namespace hailwright::testing;
using Texts = std::vector<std::string>;

namespace {

std::vector<LineUpRow> rows_of(const LineUpExample& example, std::size_t count = 5) {
  std::vector<LineUpRow> rows;
  for (std::size_t i = 0; i < count; ++i)
    rows.push_back({&example.entries[i], LineUpRank{i, 1, 2}});
  return rows;
}

Texts titles(const Table& table) {
  Texts all;
  for (const Column& column : table.columns)
    all.push_back(column.title);
  return all;
}

Texts all_words() {
  Texts words;
  for (const LineUpColumn& column : line_up_columns())
    words.emplace_back(column.word);
  return words;
}

}  // namespace

TEST_CASE(
    "line_up_columns: each word once and explained, the usual ones and the orders among them") {
  std::set<std::string> words;
  for (const LineUpColumn& column : line_up_columns()) {
    CAPTURE(column.word);
    CHECK(words.insert(std::string(column.word)).second);
    CHECK_FALSE(column.title.empty());
    CHECK_FALSE(column.about.empty());
  }
  for (const std::string& usual : usual_line_up_columns())
    CHECK(words.contains(usual));
  for (const LineUpQuantity order :
       {LineUpQuantity::loss, LineUpQuantity::power, LineUpQuantity::share_of_rated,
        LineUpQuantity::power_per_area, LineUpQuantity::power_per_mass,
        LineUpQuantity::price_per_watt, LineUpQuantity::shading_loss})
    CHECK(words.contains(std::string(word(order))));
}

TEST_CASE("line_up_columns: a column a series, a word and the places of one not withstood") {
  const LineUpExample five = five_panels();
  const Table table = line_up_table(rows_of(five), {"record", "verdict"});
  CHECK(titles(table) == Texts{"record", "IEC 61215 25 mm", "IEC 61215 35 mm"});
  CHECK(table.rows[0] == Texts{"Rigid A", "withstood", "withstood"});
  CHECK(table.rows[4] == Texts{"Flex E", "withstood", "damaged 4/5"});
}

TEST_CASE("line_up_columns: one column where the series differ, and for machines always") {
  const LineUpExample eight = eight_panels();
  const Table table = line_up_table(rows_of(eight, 6), {"verdict"});
  CHECK(titles(table) == Texts{"verdict"});
  CHECK(table.rows[5].front() == "withstood IEC 61215 25 mm (11 of 11 places)");
  const DataTable data = line_up_data(rows_of(eight), {"verdict"});
  CHECK(words_of(data, "hardest withstood", 4) == "IEC 61215 25 mm");
  CHECK(words_of(data, "mildest that damaged", 4) == "IEC 61215 35 mm");
  CHECK(is_blank(data, "mildest that damaged", 0));
}

TEST_CASE("line_up_columns: two series of one target are told apart") {
  LineUpExample five = five_panels();
  for (LineUpEntry& e : five.entries)
    e.words[1].target = e.words[0].target;
  CHECK(titles(line_up_table(rows_of(five), {"verdict"})) ==
        Texts{"IEC 61215 25 mm (small, series 1)", "IEC 61215 25 mm (large, series 2)"});
}

TEST_CASE(
    "line_up_columns: numbers rounded by their uncertainty for people and whole for machines") {
  const LineUpExample five = five_panels();
  const Table table = line_up_table(rows_of(five), {"loss", "power", "share-of-rated"});
  CHECK(titles(table) == Texts{"loss [%]", "loss, low [%]", "loss, high [%]", "power [W]",
                               "u of power [W]", "share of rated [%]"});
  CHECK(table.rows[0] == Texts{"0.6", "-0.3", "1.5", "97.0", "2.9", "97.0"});
  const DataTable data = line_up_data(rows_of(five), {"loss", "power"});
  CHECK(number_of(data, "loss", 0) == 100.0 * five.entries[0].loss->loss().si());
  CHECK(number_of(data, "level of the interval", 0) == Approx(95.0));
  CHECK(number_of(data, "power", 0) ==
        std::exp(five.entries[0].numbers.at(LineUpQuantity::power).log));
  CHECK(is_blank(data, "degrees of freedom", 0));
}

TEST_CASE("line_up_columns: an end is never shown on the other side of the limit") {
  LineUpExample five = five_panels();
  LossEstimate& e = *five.entries[0].loss;
  e.lambda = std::log(1.0 - 0.03);
  e.expanded = std::log(0.97) - std::log(1.0 - 0.05004);
  const Table table = line_up_table(rows_of(five, 1), {"loss"});
  CHECK(table.rows[0][2] == "5.004");
}

TEST_CASE("line_up_columns: levels stand in a column where they differ") {
  LineUpExample five = five_panels();
  CHECK(common_level(rows_of(five)) == "95 %");
  five.entries[2].loss->alpha = 0.05;
  CHECK(common_level(rows_of(five)).empty());
  const Table table = line_up_table(rows_of(five), {"loss"});
  CHECK(table.columns.back().title == "level of the interval [%]");
  CHECK(table.rows[2].back() == "90.0");
}

TEST_CASE("line_up_columns: what a record lacks is words for people and empty for machines") {
  const LineUpExample eight = eight_panels();
  const auto rows = rows_of(eight, 7);
  const Texts words{"record", "power", "price", "connector", "shading-loss"};
  const Table table = line_up_table(rows, words);
  CHECK(table.rows[6] == Texts{"Rigid G", "not measured", "not measured", "not stated",
                               "not stated", "not measured", "not stated"});
  const DataTable data = line_up_data(rows, words);
  for (const char* title : {"power", "price", "connector", "loss in shade", "shade"})
    CHECK(is_blank(data, title, 6));
}

TEST_CASE("line_up_columns: columns of which nothing is known are left out, and named") {
  LineUpExample five = five_panels();
  for (LineUpEntry& e : five.entries)
    e.connector.clear();
  const Texts words{"record", "connector", "leads"};
  CHECK(titles(line_up_table(rows_of(five), words)) == Texts{"record", "leads [m]"});
  CHECK(line_up_unknown(rows_of(five), words) == Texts{"connector"});
  CHECK(line_up_data(rows_of(five), words).columns.size() == 3);
}

TEST_CASE("line_up_columns: one currency in the titles, several in a column") {
  LineUpExample five = five_panels();
  const Texts words{"price", "price-range", "price-per-watt", "price-per-watt-range"};
  CHECK(titles(line_up_table(rows_of(five), words)) ==
        Texts{"price [EUR]", "lowest price [EUR]", "highest price [EUR]", "price per watt [EUR/W]",
              "lowest price per watt [EUR/W]", "highest price per watt [EUR/W]"});
  CHECK(line_up_table(rows_of(five), words).rows[0] ==
        Texts{"89.00", "79.00", "104.00", "0.92", "0.81", "1.07"});
  five.entries[1].price->currency = "CHF";
  const Table mixed = line_up_table(rows_of(five), words);
  CHECK(mixed.columns[1].title == "currency");
  CHECK(mixed.rows[1][1] == "CHF");
  const DataTable data = line_up_data(rows_of(five_panels()), words);
  CHECK(number_of(data, "price per watt", 0) == Approx(89.0 / 97.0));
}

TEST_CASE("line_up_columns: typed amounts keep their decimals") {
  LineUpExample five = five_panels();
  five.entries[1].weight = Mass::from_si(7.45);
  const Table table = line_up_table(rows_of(five), {"weight", "rated"});
  CHECK(table.rows[0] == Texts{"6.90", "100"});
}

TEST_CASE("line_up_columns: machines get the two ends of a rank as numbers") {
  const LineUpExample five = five_panels();
  const DataTable data = line_up_data(rows_of(five), {"rank"});
  CHECK(number_of(data, "rank, first", 0) == 1.0);
  CHECK(number_of(data, "rank, last", 0) == 2.0);
  CHECK(line_up_table(rows_of(five), {"rank"}).rows[0].front() == "1-2");
}

TEST_CASE("line_up_columns: more than six columns stand in two tables, each with the record") {
  CHECK(line_up_split({"rank", "record", "loss", "power"}).size() == 1);
  const auto tables = line_up_split(usual_line_up_columns());
  CHECK(tables == std::vector<Texts>{
                      {"rank", "record", "verdict", "loss", "smallest-shown"},
                      {"rank", "record", "power", "share-of-rated", "price-per-watt", "weight"}});
  const Texts of_panel{"record", "panel", "serial", "power", "rated", "leads", "weight"};
  CHECK(line_up_split(of_panel) == std::vector<Texts>{of_panel});
}

TEST_CASE("line_up_columns: all columns of any record are a table") {
  const LineUpExample eight = eight_panels();
  const DataTable data = line_up_data(rows_of(eight, 8), all_words());
  std::set<std::string> titles_seen;
  for (const DataColumn& column : data.columns)
    CHECK(titles_seen.insert(column.title).second);
  CHECK(render_csv(data).find("Rigid H") != std::string::npos);
  CHECK_THROWS_AS(line_up_data(rows_of(eight), {"medal"}), BugError);
}
