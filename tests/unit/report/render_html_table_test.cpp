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

// Found by review: tables of readings and of the budget had no names of rows, since their first
// cells repeat.
TEST_CASE("the first few cells together name a row") {
  const auto of = [](std::vector<std::vector<std::string>> rows) {
    Table table{"", {}, std::move(rows)};
    table.columns.assign(4, {"a", Align::left});
    return html_table(table);
  };
  CHECK_THAT(of({{"1", "x", "p", "9"}, {"1", "y", "p", "9"}}),
             Contains("<th scope=\"row\" class=\"short\">1</th><th scope=\"row\" "
                      "class=\"short\">x</th><td class=\"short\">p</td>"));
  CHECK_THAT(of({{"1", "x", "p", "9"}, {"1", "x", "q", "9"}}),
             Contains("<th scope=\"row\" class=\"short\">p</th><td"));
  CHECK_THAT(of({{"1", "x", "p", "8"}, {"1", "x", "p", "9"}}), !Contains("scope=\"row\""));
  CHECK_THAT(of({{"1", "", "p", "8"}, {"1", "x", "q", "9"}}), !Contains("scope=\"row\""));
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

// Found by review: type on paper went by the number of columns, whatever stood in them, and
// numbers broke inside their cells.
TEST_CASE("long tables scroll under their heads, wide ones get smaller type on paper") {
  // Each column is 8 characters wide and has room for 2 beside it.
  const auto of = [](std::size_t rows, std::size_t columns, const char* file = "",
                     bool form = false) {
    Table table{"", {}, {}, form, file};
    table.columns.assign(columns, {"a", Align::right});
    table.rows.assign(rows, std::vector<std::string>(columns, "123.4567"));
    return table_box(table);
  };
  CHECK(of(24, 9).classes == "scroll");
  CHECK(of(25, 9).classes == "scroll tall");
  CHECK(of(24, 10).classes == "scroll small");
  CHECK(of(25, 11).classes == "scroll tall small");
  CHECK(of(24, 12).classes == "scroll smallest");
  CHECK(of(24, 13).classes == "scroll smallest");
  CHECK(of(24, 14, "a.csv").classes == "scroll off-paper");
  CHECK(of(24, 14, "a.csv").off_paper);
  // Without a file it is nowhere else.
  CHECK(of(24, 14).classes == "scroll smallest");
  CHECK_FALSE(of(24, 14).off_paper);
  CHECK(of(25, 14, "a.csv", true).classes == "scroll");
  CHECK_FALSE(of(24, 3).may_scroll);
  CHECK(of(24, 4).may_scroll);
  CHECK(of(25, 3).may_scroll);
  CHECK(of(2, 1, "", true).may_scroll);
  // On a telephone long text is as wide as its column may be.
  CHECK(table_box({"", {{"a", Align::left}}, {{"some words that may break"}}}).may_scroll);
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
