#include "hailwright/report/aim_map.hpp"

#include <regex>
#include <set>

#include "hailwright/core/contract.hpp"
#include "support/aim_examples.hpp"
#include "support/catch.hpp"
#include "support/golden_picture.hpp"

using namespace hailwright;
using namespace hailwright::testing;

namespace {

struct Example {
  std::string name;
  Panel panel;
};

std::vector<Example> examples() {
  return {{"aim-map-framed-36", framed_36_cells()},
          {"aim-map-framed-32", framed_32_cells()},
          {"aim-map-flexible", flexible_32_cells()}};
}

Figure figure_of(const Example& example) {
  return aim_map(example.panel, placed(eleven_and_five(), example.panel), {"small", "large"},
                 example.name);
}

std::vector<double> numbers_after(const std::string& text, const std::string& attribute) {
  std::vector<double> all;
  const std::regex pattern(attribute + "=\"([0-9.]+)\"");
  for (std::sregex_iterator i(text.begin(), text.end(), pattern), end; i != end; ++i)
    all.push_back(std::stod((*i)[1].str()));
  return all;
}

}  // namespace

TEST_CASE("aim_map: byte for byte as it was looked at") {
  for (const Example& example : examples()) {
    const std::string now = figure_of(example).svg;
    check_golden(example.name, now);
    CHECK(now == figure_of(example).svg);
  }
}

// Not run with the others: it writes what the test above compares with.
TEST_CASE("aim_map: write the pictures to look at", "[.][write-golden]") {
  for (const Example& example : examples())
    write_golden(example.name, figure_of(example).svg);
}

TEST_CASE("aim_map: every place has its disc and its number, and legible text") {
  for (const Example& example : examples()) {
    const Figure figure = figure_of(example);
    CAPTURE(example.name);
    CHECK(figure.svg.starts_with("<svg"));
    CHECK_THAT(figure.svg, Contains("<title id=\"" + example.name + "-title\">Aim map of " +
                                    example.panel.name));
    CHECK_THAT(figure.svg, Contains("<desc id=\"" + example.name + "-desc\">"));
    for (int number = 1; number <= 16; ++number)
      CHECK_THAT(figure.svg, Contains(">" + std::to_string(number) + "</text>"));
    for (const double size : numbers_after(figure.svg, "font-size"))
      CHECK(size >= 14.0);
    // Only black, white and greys: a printer without colour loses nothing.
    const std::regex colour("#([0-9a-f]{3}|[0-9a-f]{6})\"");
    for (std::sregex_iterator i(figure.svg.begin(), figure.svg.end(), colour), end; i != end; ++i) {
      const std::string digits = (*i)[1].str();
      const std::size_t part = digits.size() / 3;
      CHECK(digits.substr(0, part) == digits.substr(part, part));
      CHECK(digits.substr(0, part) == digits.substr(2 * part, part));
    }
  }
}

TEST_CASE("aim_map: series differ by line and shape") {
  Protocol protocol;
  for (int s = 0; s < 4; ++s) {
    protocol.series.push_back(listed_series(
        "s" + std::to_string(s), {{"p" + std::to_string(s), mm(200.0 + 150.0 * s, 250), {}}}));
  }
  const Panel panel = framed_36_cells();
  const std::string svg = aim_map(panel, placed(protocol, panel), {"a", "b", "c", "d"}, "m").svg;
  std::set<std::string> dashes;
  const std::regex circle("<circle[^>]*stroke-dasharray=\"([^\"]*)\"");
  for (std::sregex_iterator i(svg.begin(), svg.end(), circle), end; i != end; ++i)
    dashes.insert((*i)[1].str());
  CHECK(dashes.size() == 4);
}

TEST_CASE("aim_map: a user's words cannot leave their element") {
  Panel panel = framed_36_cells();
  panel.name = "</title><script>alert(1)</script>";
  Protocol protocol;
  protocol.series = {listed_series("x", {{"a", mm(100, 100), {}}})};
  const Figure figure =
      aim_map(panel, placed(protocol, panel),
              {"\"><b> a name that is far too long for a line of the legend"}, "m");
  CHECK_THAT(figure.svg, !Contains("<script") && !Contains("<b>"));
  // The first 36 characters.
  CHECK_THAT(figure.svg, Contains("&quot;&gt;&lt;b&gt; a name that is far too long fo...:"));
}

TEST_CASE("aim_map: places without a position are named as such") {
  Protocol protocol;
  protocol.series = {counted_series("small", "IEC 61215 25 mm", 1, 3)};
  const Panel panel = framed_36_cells();
  const PlaceLayout layout = placed(protocol, panel);
  CHECK_THAT(aim_map(panel, layout, {"small"}, "m").svg,
             Contains("small: not drawn, without a position: 1 to 3"));
  CHECK_THROWS_AS(aim_map(panel, layout, {}, "m"), BugError);
  CHECK_THROWS_AS(aim_map(Panel{}, layout, {"small"}, "m"), BugError);
}

TEST_CASE("places_table: where each place is, or why it is nowhere") {
  Panel panel = framed_36_cells();
  panel.junction_box.reset();
  const PlaceLayout layout = placed(eleven_and_five(), panel);
  const Table table = places_table(layout, {"small", "large"});
  REQUIRE(table.columns.size() == 7);
  REQUIRE(table.rows.size() == 16);
  CHECK(table.rows[6] ==
        std::vector<std::string>{"7", "7", "small", "255", "24.5", "25",
                                 "12.5 mm from the mounting point at 255 x 12 mm"});
  CHECK(table.rows[10] ==
        std::vector<std::string>{"11", "11", "small", "-", "-", "25",
                                 "no position: the panel file names no junction_box"});
  const PlaceLayout repeated = placed(eleven_and_five(), framed_36_cells());
  CHECK_THAT(places_table(repeated, {"a", "b"}).rows[15].back(),
             Contains("an earlier series aims here too"));
  CHECK_THROWS_AS(places_table(layout, {"small"}), BugError);
}
