#include "report/chart_text.hpp"

#include "support/catch.hpp"

using namespace hailwright::detail;

TEST_CASE("chart_text: never narrower than a common sans-serif font") {
  struct Advance {
    char letter;
    double em;
  };
  // Thousandths of an em in NimbusSans-Regular.afm (URW base 35 of 2020), the metric twin of the
  // sans-serif font of the PostScript base set.
  for (const Advance a : std::vector<Advance>{{' ', 0.278},
                                              {'%', 0.889},
                                              {'0', 0.556},
                                              {'@', 1.015},
                                              {'A', 0.667},
                                              {'W', 0.944},
                                              {'f', 0.278},
                                              {'i', 0.222},
                                              {'j', 0.222},
                                              {'m', 0.833}}) {
    CAPTURE(a.letter);
    CHECK(text_units(std::string(1, a.letter), 1.0) >= a.em);
  }
}

// Lengths that a browser measured (getComputedTextLength of Chromium, 15 units) in DejaVu Sans,
// Liberation Sans and their bold faces: the wider of the two.
TEST_CASE("chart_text: never narrower than a browser sets the words") {
  struct Measured {
    const char* words;
    double usual, bold;
  };
  for (const Measured& m :
       std::vector<Measured>{{"the quick brown fox jumps", 198.64, 224.94},
                             {"before 1", 62.59, 70.98},
                             {"IEC 61215 35 mm", 134.72, 146.83},
                             {"0123456789", 95.44, 104.38},
                             {"scatter of the set-ups, observed", 240.05, 272.38},
                             {"WWW@%&MM", 111.33, 122.61},
                             {"illfjtr.,;:", 52.27, 62.92},
                             {"EFGPRSY?_CJK", 116.72, 121.44}}) {
    CAPTURE(m.words);
    CHECK(text_units(m.words, 15.0) >= m.usual);
    CHECK(text_units(m.words, 15.0) <= 1.35 * m.usual);
    CHECK(text_units(m.words, 15.0, Weight::bold) >= m.bold);
  }
}

TEST_CASE("chart_text: characters without a column take no room and bytes that are no text some") {
  CHECK(text_units("", 15.0) == 0.0);
  CHECK(text_units("e\u0301", 15.0) == text_units("e", 15.0));
  CHECK(text_units("\xff", 15.0) > 0.0);
}

TEST_CASE("chart_text: long names are cut at whole characters and say so") {
  CHECK(shortened_to("before 1", 100.0, 15.0) == "before 1");
  CHECK(shortened_to("  two\n lines ", 100.0, 15.0) == "two lines");
  const std::string cut = shortened_to("a name that is far too long for its place", 100.0, 15.0);
  CHECK(cut.ends_with("..."));
  CHECK(cut.starts_with("a name"));
  CHECK(text_units(cut, 15.0) <= 100.0);
  CHECK(shortened_to("\u00fc\u00fc\u00fc\u00fc\u00fc\u00fc\u00fc\u00fc", 50.0, 15.0) ==
        "\u00fc\u00fc...");
}

TEST_CASE("chart_text: words fill lines") {
  const std::vector<std::string> lines =
      wrapped_to("one two three four incomprehensibilities five", 90.0, 15.0);
  REQUIRE(lines.size() == 4);
  CHECK(lines[0] == "one two");
  CHECK(lines[1] == "three four");
  CHECK(lines[2].ends_with("..."));
  CHECK(lines[3] == "five");
  CHECK(wrapped_to("  ", 90.0, 15.0).empty());
}
