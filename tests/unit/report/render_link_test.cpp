#include "report/render_link.hpp"

#include "hailwright/core/contract.hpp"
#include "support/catch.hpp"

using namespace hailwright;
using namespace hailwright::detail;

TEST_CASE("a link leads to an address, a part, a file or nowhere") {
  CHECK(link_kind("") == LinkKind::none);
  CHECK(link_kind("https://example.org/a?b=1&c=(2)#d") == LinkKind::web);
  CHECK(link_kind("#hit-map-2") == LinkKind::within);
  CHECK(link_kind("readings.csv") == LinkKind::beside);
  CHECK(link_kind("photos/1-look-2.jpg") == LinkKind::beside);
  CHECK(link_kind("inputs/my panel: \u00fc.yaml") == LinkKind::beside);
}

TEST_CASE("any other link is a broken promise") {
  for (const char* link : {"http://example.org",
                           "javascript:alert(1)",
                           "JAVASCRIPT:a",
                           "data:text/html,a",
                           "https://",
                           "https://a b",
                           "https://a/\"x",
                           "https://a/<b>",
                           "https://a/\n",
                           "#",
                           "#a b",
                           "#a\"b",
                           "/etc",
                           "//example.org",
                           "../a",
                           "a/../b",
                           "./a",
                           "a//b",
                           "a/",
                           "a\\b",
                           "a\nb",
                           "a\x1b",
                           "a\u202e"}) {
    CAPTURE(link);
    CHECK_THROWS_AS(link_kind(link), BugError);
  }
}

// Checked with urllib.parse.quote of Python 3.11, which leaves the same characters as they are.
TEST_CASE("a path becomes an address") {
  CHECK(path_address("photos/1-look_2~a.jpg") == "photos/1-look_2~a.jpg");
  CHECK(path_address("inputs/my \"p\" <a>&b(c)#?%.yaml") ==
        "inputs/my%20%22p%22%20%3Ca%3E%26b%28c%29%23%3F%25.yaml");
  CHECK(path_address("\u00fc.csv") == "%C3%BC.csv");
}

TEST_CASE("headings with an id and pictures can be led to") {
  const LinkTargets targets =
      link_targets({"",
                    {Heading{1, plain("A"), "a"}, Heading{1, plain("B")}, Figure{"b", "B", "", ""},
                     Opening{plain("c"), Figure{"c", "C", "", "<svg/>"}, {}, {}},
                     Opening{plain("d"), Figure{"d", "D", "", ""}, {}, {}}}});
  CHECK(targets.headings == std::set<std::string, std::less<>>{"a"});
  CHECK(targets.pictures == std::set<std::string, std::less<>>{"b", "c"});
  CHECK_NOTHROW(targets.expect("a"));
  CHECK_NOTHROW(targets.expect("c"));
  CHECK_THROWS_AS(targets.expect("d"), BugError);
}

TEST_CASE("ids that repeat or hold more than letters and digits are a broken promise") {
  CHECK_THROWS_AS(link_targets({"", {Heading{1, plain("A"), "a b"}}}), BugError);
  CHECK_THROWS_AS(link_targets({"", {Heading{1, plain("A"), "a"}, Heading{1, plain("B"), "a"}}}),
                  BugError);
}

TEST_CASE("neighbours that lead to the same place stay together") {
  const auto groups = by_link({{"a", Tone::plain},
                               {"", Tone::plain, "x"},
                               {"b", Tone::good},
                               {"c", Tone::plain, "y"},
                               {"d", Tone::bad, "y"}});
  REQUIRE(groups.size() == 2);
  CHECK(groups[0].link.empty());
  CHECK(groups[0].runs.size() == 2);
  CHECK(groups[1].link == "y");
  CHECK(groups[1].runs.size() == 2);
}

TEST_CASE("whether words say where they lead") {
  const auto says = [](const char* words, const char* to) {
    return says_where({to, plain(words)});
  };
  CHECK(says("see https://example.org/a.", "https://example.org/a"));
  CHECK(says("example.org/a", "https://example.org/a"));
  CHECK_FALSE(says("example.org", "https://example.org/a"));
  CHECK(says_where({"https://example.org", {{"exam", Tone::plain}, {"ple.org", Tone::bad}}}));
}

TEST_CASE("plain names") {
  CHECK(is_plain_name("Hit-map-2"));
  for (const char* text : {"", "a b", "a_b", "a.svg", "../a", "\u00fc"}) {
    CAPTURE(text);
    CHECK_FALSE(is_plain_name(text));
  }
}
