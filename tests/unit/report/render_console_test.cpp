#include <algorithm>
#include <sstream>
#include <string>
#include <vector>

#include "hailwright/core/contract.hpp"
#include "hailwright/report/render.hpp"
#include "report/text_layout.hpp"
#include "support/catch.hpp"

using namespace hailwright;

namespace {

std::string console(Block block, int width = 80) {
  return render_console({"", {std::move(block)}}, {width, false});
}

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);)
    lines.push_back(line);
  return lines;
}

std::string without_escapes(const std::string& text) {
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] == '\x1b') {
      i = text.find('m', i);
    } else {
      out += text[i];
    }
  }
  return out;
}

/// A document with one of everything, as a judgement might be.
Document everything() {
  return {
      "Panel A, hail test in the garden",
      {Heading{1, plain("Panel A: 25 mm withstood")},
       Facts{{{"25 mm", {{{"withstood", Tone::good}, {", 11 of 11 places struck", Tone::plain}}}},
              {"35 mm",
               {{{"not reached", Tone::open},
                 {", but 4 of 5 places struck with at least "
                  "6.6 J each",
                  Tone::plain}}}},
              {"power", {plain("loss 1.0 % (-1.7 to 3.6)"), plain("a drop? not shown")}},
              {"seen by this test, nine times in ten", {plain("a loss of 3.0 %")}}}},
       Heading{2, plain("Assumed for you")},
       Table{"What was taken",
             {{"what", Align::left}, {"adds, points", Align::right}, {"replace with", Align::left}},
             {{"sun meter within 10 %", "0.0", "tools: sun: accuracy"},
              {"time outdoors up to 120 s when it was not noted", "12.1", "out s in shots.csv"}}},
       Bullets{{plain("Three more set-ups after the shots would settle it with a chance of 0.83."),
                {{"Stop", Tone::bad}}}},
       CautionList{{{"eyes-goggles", "Ice splinters reach the eyes",
                     "Everyone within reach of a miss wears goggles proved for more than the "
                     "energy of the ball.",
                     "EN 166 grade B, 0.86 g at 120 m/s, as read at an accident insurer"}}},
       Snippet{{"safety:", "  eyes: goggles"}}}};
}

}  // namespace

TEST_CASE("a document on 80 columns") {
  CHECK(render_console(everything(), {80, false}) == R"(Panel A, hail test in the garden

Panel A: 25 mm withstood
  25 mm  withstood, 11 of 11 places struck
  35 mm  not reached, but 4 of 5 places struck with at least 6.6 J each
  power  loss 1.0 % (-1.7 to 3.6)
         a drop? not shown
  seen by this test, nine times in ten
         a loss of 3.0 %

  Assumed for you
    What was taken
    what                                   adds, points  replace with
    -------------------------------------  ------------  --------------------
    sun meter within 10 %                           0.0  tools: sun: accuracy

    time outdoors up to 120 s when it was          12.1  out s in shots.csv
    not noted

    - Three more set-ups after the shots would settle it with a chance of 0.83.
    - Stop

    Ice splinters reach the eyes (eyes-goggles)
      Everyone within reach of a miss wears goggles proved for more than the
      energy of the ball.

safety:
  eyes: goggles
)");
}

TEST_CASE("the same document on 40 columns") {
  CHECK(render_console(everything(), {40, false}) == R"(Panel A, hail test in the garden

Panel A: 25 mm withstood
  25 mm  withstood, 11 of 11 places
         struck
  35 mm  not reached, but 4 of 5 places
         struck with at least 6.6 J each
  power  loss 1.0 % (-1.7 to 3.6)
         a drop? not shown
  seen by this test, nine times in ten
         a loss of 3.0 %

  Assumed for you
    What was taken
                    adds,
    what           points  replace with
    -------------  ------  ------------
    sun meter         0.0  tools: sun:
    within 10 %            accuracy

    time outdoors    12.1  out s in
    up to 120 s            shots.csv
    when it was
    not noted

    - Three more set-ups after the shots
      would settle it with a chance of
      0.83.
    - Stop

    Ice splinters reach the eyes
    (eyes-goggles)
      Everyone within reach of a miss
      wears goggles proved for more than
      the energy of the ball.

safety:
  eyes: goggles
)");
}

TEST_CASE("lines keep to the width and end in no blanks") {
  const int width = GENERATE(40, 60, 80, 120);
  CAPTURE(width);
  for (const std::string& line : lines_of(render_console(everything(), {width, false}))) {
    CAPTURE(line);
    CHECK(detail::display_width(line) <= width);
    CHECK((line.empty() || line.back() != ' '));
  }
}

TEST_CASE("widths outside 40 to 120 are taken as the nearest") {
  CHECK(render_console(everything(), {10, false}) == render_console(everything(), {40, false}));
  CHECK(render_console(everything(), {999, false}) == render_console(everything(), {120, false}));
}

TEST_CASE("colour adds escape sequences and nothing else") {
  const int width = GENERATE(40, 60, 80, 120);
  CAPTURE(width);
  const std::string plain_text = render_console(everything(), {width, false});
  const std::string coloured = render_console(everything(), {width, true});
  CHECK(plain_text.find('\x1b') == std::string::npos);
  CHECK(coloured != plain_text);
  CHECK(without_escapes(coloured) == plain_text);
  // No colour runs over the end of a line.
  for (const std::string& line : lines_of(coloured)) {
    CAPTURE(line);
    const std::size_t last = line.rfind('\x1b');
    CHECK((last == std::string::npos || line.compare(last, 4, "\x1b[0m") == 0));
  }
}

TEST_CASE("prose keeps to 100 columns on a wide screen, tables do not") {
  const std::string half(49, 'x');
  CHECK(console(Paragraph{plain(half + " " + half + "x")}, 120) == half + " " + half + "x\n");
  CHECK(console(Paragraph{plain(half + " " + half + "xx")}, 120) == half + "\n" + half + "xx\n");
  const std::string cell(59, 'x');
  CHECK(console(Table{"", {{"", Align::left}, {"", Align::left}}, {{cell, cell}}}, 120) ==
        cell + "  " + cell + "\n");
}

TEST_CASE("tones have their own look") {
  const Document document{"",
                          {Paragraph{{{"a", Tone::good},
                                      {" b", Tone::bad},
                                      {" c", Tone::open},
                                      {" d", Tone::strong},
                                      {" e", Tone::plain}}}}};
  CHECK(render_console(document, {80, true}) ==
        "\x1b[1;32ma\x1b[0m \x1b[1;31mb\x1b[0m \x1b[1;33mc\x1b[0m \x1b[1md\x1b[0m e\n");
}

TEST_CASE("labels cannot control the terminal") {
  const std::string evil = "a\x1b]0;t\a\x9b"
                           "31m\u202eb\r\nc";
  const std::string shown = "a?]0;t??31m?b c";
  const Document document{evil,
                          {Heading{1, plain(evil)}, Paragraph{plain(evil)},
                           Facts{{{evil, {plain(evil)}}}},
                           Table{evil, {{evil, Align::left}}, {{evil}}}, Bullets{{plain(evil)}},
                           CautionList{{{evil, evil, evil, evil}}}, Snippet{{evil}}}};
  const std::string screen = render_console(document, {120, false});
  CHECK(screen == shown + "\n\n" + shown + "\n  " + shown + "\n\n  " + shown + "  " + shown +
                      "\n\n  " + shown + "\n  " + shown + "\n  ---------------\n  " + shown +
                      "\n\n  - " + shown + "\n\n  " + shown + " (" + shown + ")\n    " + shown +
                      "\n\na?]0;t??31m?b  c\n");
  const std::string coloured = render_console(document, {120, true});
  CHECK(without_escapes(coloured) == screen);
}

TEST_CASE("numbers stand at the right, words at the left") {
  const Table table{
      "", {{"word", Align::left}, {"J", Align::right}}, {{"a", "1.99"}, {"b", "12.0"}}};
  CHECK(console(table) == "word     J\n----  ----\na     1.99\nb     12.0\n");
}

TEST_CASE("wide and combining characters keep columns straight") {
  const Table table{
      "", {{"x", Align::left}, {"n", Align::right}}, {{"世界", "1"}, {"e\u0301", "2"}}};
  CHECK(console(table) == "x     n\n----  -\n世界  1\ne\u0301     2\n");
}

TEST_CASE("a table without rows says so") {
  CHECK(console(Table{"", {{"a", Align::left}, {"b", Align::left}}, {}}) ==
        "a  b\n-  -\n(no rows)\n");
}

TEST_CASE("a table without titles has no head") {
  CHECK(console(Table{"", {{"", Align::left}, {"", Align::left}}, {{"a", "b"}}}) == "a  b\n");
}

TEST_CASE("sixty rows take sixty lines") {
  Table table{"", {{"shot", Align::right}, {"landed", Align::left}}, {}};
  for (int i = 1; i <= 60; ++i)
    table.rows.push_back({std::to_string(i), i % 3 ? "in" : "miss"});
  const auto lines = lines_of(console(table, 40));
  REQUIRE(lines.size() == 62);
  CHECK(lines[2] == "   1  in");
  CHECK(lines[61] == "  60  miss");
}

TEST_CASE("a table that cannot fit becomes labelled lines") {
  Table table{"Grades", {}, {{}, {}}};
  for (const char* title : {"diameter", "mass", "speed", "energy", "momentum", "source"}) {
    table.columns.push_back({title, Align::right});
    table.rows[0].push_back(std::string(title) + " 1");
    table.rows[1].push_back(title == std::string("mass") ? "" : "2");
  }
  CHECK(console(table, 40) == R"(Grades
diameter  diameter 1
mass      mass 1
speed     speed 1
energy    energy 1
momentum  momentum 1
source    source 1

diameter  2
speed     2
energy    2
momentum  2
source    2
)");
}

TEST_CASE("a single long word is left whole") {
  const std::string address(60, 'x');
  CHECK(console(Paragraph{plain("see " + address + " there")}, 40) ==
        "see\n" + address + "\nthere\n");
  const auto table = Table{"", {{"a", Align::left}, {"b", Align::left}}, {{address, "c"}}};
  CHECK(console(table, 40) == "a  " + address + "\nb  c\n");
  CHECK(console(Facts{{{address, {plain("c")}}}}, 40) == address + "\n  c\n");
}

TEST_CASE("facts line up with labels of up to 18 columns") {
  CHECK(console(Facts{{{"123456789012345678", {plain("a")}}, {"b", {}}, {"", {plain("c")}}}}) ==
        "123456789012345678  a\nb\n                    c\n");
  CHECK(console(Facts{{{"1234567890123456789", {plain("a")}}, {"b", {plain("c")}}}}) ==
        "1234567890123456789\n   a\nb  c\n");
}

TEST_CASE("blocks are parted by one empty line, headings stay with what they head") {
  const Document document{"T",
                          {Paragraph{plain("a")}, Paragraph{}, Facts{}, Bullets{}, CautionList{},
                           Snippet{}, Heading{1, plain("H")}, Heading{2, plain("I")},
                           Paragraph{plain("b")}, Heading{1, plain("K")}, Bullets{{plain("c")}}}};
  CHECK(render_console(document, {}) == "T\n\na\n\nH\n  I\n    b\n\nK\n  - c\n");
  CHECK(render_console({}, {}).empty());
}

TEST_CASE("the highest heading used stands at the left") {
  const Document document{"T",
                          {Heading{3, plain("b")}, Heading{2, plain("a")}, Heading{3, plain("b")},
                           Paragraph{plain("c")}}};
  CHECK(render_console(document, {}) == "T\n\n  b\na\n  b\n    c\n");
}

TEST_CASE("a caution shows its id beside its title, its source stands under `sources`") {
  const CautionItem item{"id-of-a-caution", "Title", "Text.", "A source of some words"};
  CHECK(console(CautionList{{item}}, 80) == "Title (id-of-a-caution)\n  Text.\n");
  CHECK(console(CautionList{{{"", "Title", "Text.", ""}}}, 80) == "Title\n  Text.\n");
}

TEST_CASE("a picture is told in words") {
  CHECK(console(Figure{"map", "Aim map of Rigid A", "Five places on the front of the panel.",
                       "<svg>unseen</svg>"},
                40) == "Figure: Aim map of Rigid A\n  Five places on the front of the panel.\n");
  CHECK(console(Figure{"map", "Aim map\x1b[2J", "\u202e", ""}) == "Figure: Aim map?[2J\n  ?\n");
}

TEST_CASE("a check list has boxes, and wraps beside them") {
  CHECK(console(Checklist{{plain("goggles on"),
                           {{"backstop", Tone::strong},
                            {" hung and closed at its sides, nobody behind it", Tone::plain}},
                           {}}},
                40) == "[ ] goggles on\n"
                       "[ ] backstop hung and closed at its\n"
                       "    sides, nobody behind it\n"
                       "[ ]\n");
}

TEST_CASE("a rule stands where a sheet of paper ends, and only between blocks") {
  const std::string rule(40, '-');
  const Document document{"",
                          {PageBreak{}, Heading{1, plain("A")}, Paragraph{plain("a")}, PageBreak{},
                           PageBreak{}, Paragraph{}, Heading{1, plain("B")}, PageBreak{},
                           Paragraph{plain("b")}, PageBreak{}}};
  CHECK(render_console(document, {40, false}) ==
        "A\n  a\n\n" + rule + "\n\nB\n\n" + rule + "\n\n  b\n");
}

TEST_CASE("the foot stands once, at the end") {
  CHECK(render_console({"T", {Heading{1, plain("A")}}, "Goggles on."}, {}) ==
        "T\n\nA\n\nGoggles on.\n");
  CHECK(render_console({"", {}, "Goggles on."}, {}) == "Goggles on.\n");
}

TEST_CASE("a form has lines to write on, also where its rows become labelled lines") {
  Table form{"", {{"setup", Align::left}, {"power W", Align::left}}, {{"before 1", ""}}, true};
  CHECK(console(form) == "setup     power W\n--------  -------\nbefore 1  ____\n");
  for (const char* title : {"sun W/m2", "temp degC", "skip", "battery %", "note"}) {
    form.columns.push_back({title, Align::left});
    form.rows[0].push_back("");
  }
  CHECK(console(form, 40) == "setup      before 1\npower W    ____\nsun W/m2   ____\n"
                             "temp degC  ____\nskip       ____\nbattery %  ____\n"
                             "note       ____\n");
  form.to_fill_in = false;
  CHECK(console(form, 40) == "setup  before 1\n");
}

TEST_CASE("what no screen can hold is a broken promise") {
  CHECK_THROWS_AS(console(Heading{0, plain("a")}), BugError);
  CHECK_THROWS_AS(console(Table{"", {}, {}}), BugError);
  CHECK_THROWS_AS(console(Table{"", {{"a", Align::left}}, {{"1", "2"}}}), BugError);
  CHECK_THROWS_AS(console(CautionList{{{"a", "", "", ""}}}), BugError);
  CHECK_THROWS_AS(console(Figure{"a", "", "", ""}), BugError);
}

TEST_CASE("an address stands behind the words that lead there, unless they hold it") {
  const auto line = [](const char* words, const char* to) {
    return console(Paragraph{{{words, Tone::plain, to}, {".", Tone::plain}}});
  };
  CHECK(line("the guide", "https://example.org/a") == "the guide (https://example.org/a).\n");
  CHECK(line("see https://example.org/a", "https://example.org/a") ==
        "see https://example.org/a.\n");
  CHECK(line("example.org/a", "https://example.org/a") == "example.org/a.\n");
  CHECK(line("the readings", "readings.csv") == "the readings.\n");
  CHECK(line("the power", "#power") == "the power.\n");
  CHECK_THROWS_AS(line("a", "javascript:b"), BugError);
  // Once behind words of several tones.
  CHECK(console(Bullets{
            {{{"a", Tone::bad, "https://b.example"}, {" c", Tone::plain, "https://b.example"}}}}) ==
        "- a c (https://b.example)\n");
}

TEST_CASE("a table names its file on a terminal") {
  CHECK(console(Table{"", {{"a", Align::left}}, {{"1"}}, false, "shots.csv"}) ==
        "a\n-\n1\nAll columns as a file: shots.csv\n");
}

TEST_CASE("a photograph is told in words") {
  CHECK(console(Photo{"a.jpg", "After: a scuff", "A mark.", "image/jpeg", "x", 1, 1}) ==
        "Photograph: After: a scuff\n  A mark.\n");
  CHECK_THROWS_AS(console(Photo{"a.jpg", "", "", "image/jpeg", "x", 1, 1}), BugError);
}

TEST_CASE("an opening on a terminal: sentence, facts, cautions, picture") {
  const Opening opening{{{"It withstood", Tone::good}, {", so far.", Tone::plain}},
                        Figure{"map", "Hits", "Five places.", "<svg/>"},
                        {{"loss", {plain("0.4 %")}}},
                        {plain("Not a certification test.")}};
  CHECK(console(opening) == "It withstood, so far.\n\nloss  0.4 %\n\n"
                            "- Not a certification test.\n\nFigure: Hits\n  Five places.\n");
  CHECK(console(Opening{plain("It withstood."), {}, {}, {}}) == "It withstood.\n");
  CHECK_THROWS_AS(console(Opening{}), BugError);
}

TEST_CASE("render_console: a sketch stands before the words on a terminal with UTF-8") {
  Figure figure;
  figure.id = "log";
  figure.title = "Course";
  figure.description = "Power over time.";
  figure.svg = "<svg></svg>";
  figure.sketch = {"90 W ▁▃▅  █", "   0 █\x1b██"};
  const auto with = [&](int width, bool unicode) {
    return render_console({"", {figure}}, {width, false, unicode});
  };
  CHECK(with(80, true) == "Figure: Course\n90 W ▁▃▅  █\n   0 █?██\n  Power over time.\n");
  CHECK(with(80, false) == "Figure: Course\n  Power over time.\n");
  // A sketch that does not fit is left out whole: wrapped it would show nothing.
  figure.sketch.emplace_back(60, '-');
  CHECK(with(50, true) == "Figure: Course\n  Power over time.\n");
}
