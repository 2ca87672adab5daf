#include "report/render_html_table.hpp"

#include "hailwright/core/contract.hpp"
#include "support/catch.hpp"

using namespace hailwright;
using namespace hailwright::detail;

TEST_CASE("heads of columns and names of rows are marked as such") {
  CHECK(html_table({"All", {{"place", Align::left}, {"J", Align::right}}, {{"1", "1.99"}}}) ==
        "<table>\n<caption>All</caption>\n"
        "<thead><tr><th scope=\"col\">place</th><th scope=\"col\" class=\"number\">J</th></tr>"
        "</thead>\n<tbody>\n"
        "<tr><th scope=\"row\" class=\"short\">1</th><td class=\"number\">1.99</td></tr>\n"
        "</tbody>\n</table>");
  // Cells that repeat, or are empty, name no row; an empty head is no head.
  CHECK_THAT(html_table({"", {{"a", Align::left}, {"", Align::left}}, {{"1", ""}, {"1", ""}}}),
             Contains("<th scope=\"col\">a</th><td></td>") && !Contains("scope=\"row\"") &&
                 !Contains("<caption>"));
  CHECK_THAT(html_table({"", {{"", Align::left}}, {{"1"}}}),
             !Contains("<thead>") && !Contains("scope"));
  CHECK_THAT(html_table({"", {{"a", Align::left}, {"b", Align::left}}, {}}),
             Contains("<td class=\"none\" colspan=\"2\">(no rows)</td>"));
}

TEST_CASE("a column of short cells stays in one line, one with a long cell does not") {
  const std::string longest(24, 'a');
  CHECK_THAT(html_table({"", {{"a", Align::left}}, {{"2025-06-14 12:00"}, {longest}}}),
             Contains("class=\"short\">2025-06-14 12:00<"));
  CHECK_THAT(html_table({"", {{"a", Align::left}}, {{"2025-06-14 12:00"}, {longest + " a"}}}),
             !Contains("short") && !Contains("breaks"));
  // A word that long may break, or it would push other columns off the paper.
  CHECK_THAT(html_table({"", {{"a", Align::left}}, {{"2025-06-14 12:00"}, {longest + "a"}}}),
             !Contains("short") && Contains("class=\"breaks\">2025-06-14 12:00<"));
}

TEST_CASE("figures stay in one line unless they are none") {
  const std::string longest(24, 'a');
  const auto set_as = [](const std::string& title, const std::string& text) {
    return html_table({"", {{title, Align::right}, {"", Align::left}}, {{text, ""}, {"1", ""}}});
  };
  CHECK_THAT(set_as(longest, "9"), Contains("scope=\"col\" class=\"number\">aaa") &&
                                       Contains("class=\"number\">1<") && !Contains("breaks"));
  CHECK_THAT(set_as(longest + 'a', "9"), Contains("scope=\"col\" class=\"number breaks\">aaa"));
  CHECK_THAT(set_as("a", longest + " a"), Contains("class=\"number breaks\">1<"));
  CHECK_THAT(html_table({"", {{longest + 'a', Align::left}}, {{"1"}}}),
             Contains("scope=\"col\" class=\"breaks\">aaa"));
}

TEST_CASE("text in a table comes out as text") {
  const std::string nasty = R"(<b>"A" & =1+1 |x|)";
  const std::string table = html_table({nasty, {{nasty, Align::left}}, {{nasty}}});
  const std::string shown = "&lt;b&gt;&quot;A&quot; &amp; =1+1 |x|<";
  CHECK_THAT(table, Contains("<caption>" + shown) && Contains("scope=\"col\">" + shown) &&
                        Contains("class=\"short\">" + shown) && !Contains("<b>"));
}

TEST_CASE("long tables scroll under their heads, wide ones get small type on paper") {
  const auto of = [](std::size_t rows, std::size_t columns, bool form = false) {
    Table table{"", {}, {}, form};
    table.columns.assign(columns, {"a", Align::left});
    table.rows.assign(rows, std::vector<std::string>(columns, "1"));
    return scroll_classes(table);
  };
  CHECK(of(24, 12) == "scroll");
  CHECK(of(25, 12) == "scroll tall");
  CHECK(of(24, 13) == "scroll wide");
  CHECK(of(25, 13) == "scroll tall wide");
  CHECK(of(25, 13, true) == "scroll");
  CHECK_THAT(html_table({"", {{"a", Align::left}}, {{""}}, true}),
             Contains("<table class=\"form\">"));
  CHECK_THAT(html_table({"", {{"a", Align::left}}, {17, {""}}, true}),
             Contains("<table class=\"form long\">"));
}

TEST_CASE("a table that is none is a broken promise") {
  CHECK_THROWS_AS(html_table({"", {}, {}}), BugError);
  CHECK_THROWS_AS(html_table({"", {{"a", Align::left}}, {{"1", "2"}}}), BugError);
  CHECK_THROWS_AS(html_table({"", {{"a", Align::left}, {"b", Align::left}}, {{"1"}}}), BugError);
}
