#include "hailwright/evaluate/line_up.hpp"

#include "support/catch.hpp"

using namespace hailwright;

namespace {

LineUpEntry entry(double log, const std::string& series = "25 mm") {
  LineUpEntry e;
  e.traits = {{"series", series}, {"limit", "5 %"}};
  e.numbers[LineUpQuantity::loss] = {log, {{"", 0.001}}, 0.001};
  return e;
}

LineUpEntry priced(double log, const std::string& currency) {
  LineUpEntry e = entry(0.0);
  e.price = Money{80.0, currency};
  e.numbers[LineUpQuantity::price_per_watt] = {log, {{"", 0.001}}, 0.001};
  return e;
}

std::vector<std::size_t> members(const LineUpGroup& group) {
  std::vector<std::size_t> entries;
  for (const LineUpRank& r : group.ranks)
    entries.push_back(r.entry);
  return entries;
}

using Entries = std::vector<std::size_t>;

}  // namespace

TEST_CASE("line-up: only records of one kind are ranked together") {
  const std::vector<LineUpEntry> entries{
      entry(-0.01, "35 mm"), entry(-0.02),          entry(0.0),
      entry(-0.03, "45 mm"), entry(-0.05, "35 mm"), entry(-0.01)};
  const LineUp l = line_up(entries, LineUpQuantity::loss);
  REQUIRE(l.groups.size() == 2);
  CHECK(members(l.groups[0]) == Entries{2, 5, 1});
  CHECK(l.groups[0].traits == entries[1].traits);
  CHECK(members(l.groups[1]) == Entries{0, 4});
  REQUIRE(l.unranked.size() == 1);
  CHECK(l.unranked[0].entry == 3);
  CHECK_FALSE(l.unranked[0].number_missing);
  CHECK(l.unranked[0].differs == std::vector<LineUpTrait>{{"series", "45 mm"}});
}

TEST_CASE("line-up: a record without the number is listed and not ranked") {
  std::vector<LineUpEntry> entries{entry(0.0), entry(-0.01), entry(-0.02)};
  entries[1].numbers.clear();
  const LineUp l = line_up(entries, LineUpQuantity::loss);
  CHECK(members(l.groups.at(0)) == Entries{0, 2});
  CHECK(l.groups[0].ranks[1].last == 2);
  REQUIRE(l.unranked.size() == 1);
  CHECK(l.unranked[0].entry == 1);
  CHECK(l.unranked[0].number_missing);
  CHECK(l.unranked[0].differs.empty());
}

TEST_CASE("line-up: nothing and one record rank nothing") {
  CHECK(line_up({}, LineUpQuantity::loss).groups.empty());
  const LineUp one = line_up({entry(0.0)}, LineUpQuantity::loss);
  CHECK(one.groups.empty());
  REQUIRE(one.unranked.size() == 1);
  CHECK(one.unranked[0].differs.empty());
  CHECK_FALSE(one.unranked[0].number_missing);
  const LineUp none = line_up({entry(0.0)}, LineUpQuantity::power);
  CHECK(none.unranked.at(0).number_missing);
}

TEST_CASE("line-up: prices compare in the most frequent currency alone") {
  const std::vector<LineUpEntry> entries{priced(0.3, "USD"), priced(0.2, "EUR"), priced(0.1, "EUR"),
                                         entry(0.0)};
  const LineUp l = line_up(entries, LineUpQuantity::price_per_watt);
  CHECK(members(l.groups.at(0)) == Entries{2, 1});
  REQUIRE(l.unranked.size() == 2);
  CHECK(l.unranked[0].entry == 0);
  CHECK(l.unranked[0].number_missing);
  CHECK(l.unranked[1].number_missing);
  // By anything else a currency keeps nobody apart.
  CHECK(line_up(entries, LineUpQuantity::loss).groups.at(0).ranks.size() == 4);
  // Of as many the currency given first.
  const LineUp even =
      line_up({priced(0.0, "USD"), priced(0.0, "EUR"), priced(0.1, "EUR"), priced(0.1, "USD")},
              LineUpQuantity::price_per_watt);
  CHECK(members(even.groups.at(0)) == Entries{0, 3});
}

TEST_CASE("line-up: shades compare with the same shade") {
  std::vector<LineUpEntry> entries{entry(0.0), entry(0.0), entry(0.0)};
  const char* shades[] = {"lower left cell", "one row", "lower left cell"};
  for (std::size_t i = 0; i < 3; ++i) {
    entries[i].shade = shades[i];
    entries[i].numbers[LineUpQuantity::shading_loss] = {-0.5, {{"", 0.01}}, 0.01};
  }
  const LineUp l = line_up(entries, LineUpQuantity::shading_loss);
  CHECK(members(l.groups.at(0)) == Entries{0, 2});
  REQUIRE(l.unranked.size() == 1);
  CHECK(l.unranked[0].differs == std::vector<LineUpTrait>{{"shade", "one row"}});
}

TEST_CASE("line-up: the order of the entries changes no rank") {
  std::vector<LineUpEntry> entries;
  for (const double log : {-0.01, 0.0, -0.0105, -0.03})
    entries.push_back(entry(log));
  const LineUp there = line_up(entries, LineUpQuantity::loss);
  const LineUp back = line_up({entries.rbegin(), entries.rend()}, LineUpQuantity::loss);
  for (std::size_t i = 0; i < 4; ++i) {
    CHECK(there.groups[0].ranks[i].entry == 3 - back.groups[0].ranks[i].entry);
    CHECK(there.groups[0].ranks[i].first == back.groups[0].ranks[i].first);
    CHECK(there.groups[0].ranks[i].last == back.groups[0].ranks[i].last);
  }
}

TEST_CASE("line-up: a price without its number, or a number without its price, is not ranked") {
  std::vector<LineUpEntry> entries{entry(0.0),         priced(0.1, "EUR"), priced(0.2, "EUR"),
                                   priced(0.0, "USD"), priced(0.0, "USD"), priced(0.0, "EUR")};
  for (const std::size_t i : {3U, 4U, 5U})
    entries[i].numbers.erase(LineUpQuantity::price_per_watt);
  entries[5].numbers[LineUpQuantity::price_per_watt] = {0.0, {{"", 0.001}}, 0.001};
  entries[5].price.reset();
  const LineUp l = line_up(entries, LineUpQuantity::price_per_watt);
  CHECK(members(l.groups.at(0)) == Entries{1, 2});
  CHECK(l.unranked.size() == 4);
}

TEST_CASE("line-up: shades that nobody described are one kind") {
  std::vector<LineUpEntry> entries{entry(0.0), entry(0.0)};
  for (LineUpEntry& e : entries)
    e.numbers[LineUpQuantity::shading_loss] = {-0.5, {{"", 0.01}}, 0.01};
  CHECK(line_up(entries, LineUpQuantity::shading_loss).groups.at(0).ranks.size() == 2);
  entries[0].shade = "one row";
  CHECK(line_up(entries, LineUpQuantity::shading_loss).groups.empty());
}
