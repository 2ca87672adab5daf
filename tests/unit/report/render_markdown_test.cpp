#include <optional>
#include <string>
#include <string_view>

#include "hailwright/core/contract.hpp"
#include "hailwright/report/render.hpp"
#include "support/catch.hpp"

using namespace hailwright;

namespace {

std::string markdown(Block block) {
  return render_markdown({"", {std::move(block)}});
}

bool is_punctuation(char c) {
  return std::string_view(R"(!"#$%&'()*+,-./:;<=>?@[\]^_`{|}~)").find(c) != std::string_view::npos;
}

/// What a CommonMark reader shows for inline text without emphasis; nothing when a character is
/// left that could act as markup. A small reading of sections 2.4, 2.5 and 6 of the specification
/// (0.30, from memory).
std::optional<std::string> literal(std::string_view source) {
  std::string shown;
  for (std::size_t i = 0; i < source.size(); ++i) {
    if (source.substr(i, 6) == "&#124;") {
      shown += '|';
      i += 5;
    } else if (source[i] == '\\' && i + 1 < source.size() && is_punctuation(source[i + 1])) {
      shown += source[++i];
    } else if (std::string_view("\\`*_[]<>~|").find(source[i]) != std::string_view::npos) {
      return std::nullopt;
    } else if (source[i] == '&' && i + 1 < source.size() && source[i + 1] != ' ') {
      return std::nullopt;
    } else {
      shown += source[i];
    }
  }
  return shown;
}

const std::string hostile = R"(<b>"A" & =1+1 |x| *x* _y_ [z](w) `code` # 1. - + \ &lt; ~~s~~)";

}  // namespace

// Every golden text and the hostile ones below were also read with cmark 0.30.2, the reference
// implementation of CommonMark.
TEST_CASE("a document as Markdown") {
  const Document document{
      "Panel A",
      {Heading{1, plain("What was seen")},
       Facts{{{"25 mm", {{{"withstood", Tone::good}, {", 11 of 11 places", Tone::plain}}}},
              {"power", {plain("loss 1.0 %"), plain("a drop? not shown")}},
              {"not noted", {}}}},
       Paragraph{
           plain("A long paragraph stays on one line,\nwhatever its width may be, so that the "
                 "differences between two versions are easy to read.")},
       Heading{2, plain("Shots")},
       Table{"All shots",
             {{"place", Align::left}, {"J", Align::right}},
             {{"corner", "1.99"}, {"", "2.01"}}},
       Bullets{{plain("one"), plain("two")}},
       CautionList{{{"eyes", "Ice in the eyes", "Wear goggles.", "EN 166, read"}}},
       Snippet{{"safety:", "  eyes: goggles"}}}};
  CHECK(render_markdown(document) ==
        R"(# Panel A

## What was seen

- **25 mm**: **withstood**, 11 of 11 places
- **power**:
  - loss 1.0 %
  - a drop? not shown
- **not noted**

A long paragraph stays on one line, whatever its width may be, so that the differences between two versions are easy to read.

### Shots

All shots

| place | J |
| --- | ---: |
| corner | 1.99 |
| | 2.01 |

- one
- two

* **Ice in the eyes**: Wear goggles. *Source: EN 166, read* (eyes)

```
safety:
  eyes: goggles
```
)");
}

TEST_CASE("an empty document is empty") {
  CHECK(render_markdown({}).empty());
  CHECK(render_markdown({"", {Facts{}, Bullets{}, CautionList{}, Snippet{}, Paragraph{}}}).empty());
}

TEST_CASE("text that looks like markup comes out literally") {
  const std::string paragraph = markdown(Paragraph{plain(hostile)});
  CAPTURE(paragraph);
  CHECK(paragraph.back() == '\n');
  CHECK(literal(paragraph.substr(0, paragraph.size() - 1)) == hostile);
  CHECK(paragraph ==
        "\\<b\\>\"A\" & =1+1 &#124;x&#124; \\*x\\* \\_y\\_ \\[z\\](w) \\`code\\` \\# 1. - + "
        "\\\\ \\&lt; \\~\\~s\\~\\~\n");

  const std::string title = render_markdown({hostile, {}});
  CAPTURE(title);
  CHECK(literal(title.substr(2, title.size() - 3)) == hostile);

  const std::string table = markdown(Table{"", {{hostile, Align::left}}, {}});
  const std::string first = table.substr(0, table.find('\n'));
  CAPTURE(first);
  CHECK(literal(first.substr(2, first.size() - 4)) == hostile);
}

TEST_CASE("text at the beginning of a line does not become a block") {
  const auto line = [](const char* text) { return markdown(Paragraph{plain(text)}); };
  CHECK(line("- a") == "\\- a\n");
  CHECK(line("-") == "\\-\n");
  CHECK(line("---") == "\\-\\-\\-\n");
  CHECK(line("+ a") == "\\+ a\n");
  CHECK(line("# a") == "\\# a\n");
  CHECK(line("> a") == "\\> a\n");
  CHECK(line("1. a") == "1\\. a\n");
  CHECK(line("12) a") == "12\\) a\n");
  CHECK(line("(a) b") == "(a\\) b\n");
  CHECK(line("iv. a") == "iv\\. a\n");
  CHECK(line(": a") == "\\: a\n");
  CHECK(line("    a") == "a\n");
  CHECK(line("```") == "\\`\\`\\`\n");
  // These need nothing and get nothing.
  CHECK(line("-1.7 to 3.6") == "-1.7 to 3.6\n");
  CHECK(line("+5 %") == "+5 %\n");
  CHECK(line("1.99 J") == "1.99 J\n");
  CHECK(line("Then. So") == "Then. So\n");
  CHECK(markdown(Bullets{{plain("- a")}}) == "- \\- a\n");
}

TEST_CASE("marks of wider flavours come out literally") {
  const auto line = [](const char* text) { return markdown(Paragraph{plain(text)}); };
  CHECK(line("a@b.example") == "a\\@b.example\n");
  CHECK(line("judge --explain") == "judge -\\-explain\n");
  CHECK(line("m^2 $x$ ==y== {z}") == "m\\^2 \\$x\\$ =\\=y=\\= \\{z\\}\n");
  CHECK(line("&amp; & &#35;") == "\\&amp; & \\&\\#35;\n");
}

TEST_CASE("words of any tone but plain are strong") {
  const Runs text = {
      {"now ", Tone::plain}, {"good ", Tone::good}, {"bad", Tone::bad}, {" then", Tone::plain}};
  CHECK(markdown(Paragraph{text}) == "now **good bad** then\n");
  CHECK(markdown(Paragraph{{{"a", Tone::open}, {"b", Tone::strong}}}) == "**ab**\n");
}

TEST_CASE("emphasis that Markdown cannot write is left out") {
  // "**(a)**b" would print its asterisks: CommonMark 0.30, section 6.2 (seen with cmark 0.30.2).
  CHECK(markdown(Paragraph{{{"(a)", Tone::strong}, {"b", Tone::plain}}}) == "(a)b\n");
  CHECK(markdown(Paragraph{{{"(a)", Tone::strong}, {", b", Tone::plain}}}) == "**(a)**, b\n");
}

TEST_CASE("lists that follow each other stay apart") {
  const Document document{"",
                          {Bullets{{plain("a")}}, Bullets{{plain("b")}}, Bullets{{plain("c")}}}};
  CHECK(render_markdown(document) == "- a\n\n* b\n\n- c\n");
}

TEST_CASE("heading levels follow on without a gap") {
  const std::vector<Block> blocks = {Heading{2, plain("a")}, Heading{3, plain("b")}};
  CHECK(render_markdown({"T", blocks}) == "# T\n\n## a\n\n### b\n");
  CHECK(render_markdown({"", blocks}) == "# a\n\n## b\n");
}

TEST_CASE("a table without rows says so in Markdown") {
  CHECK(markdown(Table{"", {{"a", Align::left}}, {}}) == "| a |\n| --- |\n\n(no rows)\n");
}

TEST_CASE("every caution carries its id and its source in Markdown") {
  const std::string text =
      markdown(CautionList{{{"a-1", "A", "Do a.", "S *1*"}, {"b-2", "B", "Do b.", ""}}});
  CHECK(text == "- **A**: Do a. *Source: S \\*1\\** (a-1)\n- **B**: Do b. (b-2)\n");
}

TEST_CASE("lines to copy cannot close their fence") {
  CHECK(markdown(Snippet{{"a: ````", "```", "<b>\x1b"}}) == "`````\na: ````\n```\n<b>?\n`````\n");
}

TEST_CASE("a fact without a label is plain text") {
  CHECK(markdown(Facts{{{"", {plain("- a")}}}}) == "- \\- a\n");
  CHECK(markdown(Facts{{{"*l*", {plain("")}}}}) == "- **\\*l\\***\n");
}

TEST_CASE("a picture is told in words, or linked as the file of its id") {
  const Document document{
      "", {Figure{"aim-map-1", "Aim map of [A]", "Five places, *all* on the front.", "<svg/>"}}};
  CHECK(render_markdown(document) ==
        "**Figure: Aim map of \\[A\\]**. Five places, \\*all\\* on the front.\n");
  CHECK(render_markdown(document, {.pictures = true}) ==
        "**Figure: Aim map of \\[A\\]**\n\n"
        "![Five places, \\*all\\* on the front.](aim-map-1.svg)\n");
  CHECK(markdown(Figure{"a", "A", "", ""}) == "**Figure: A**\n");
}

// GitHub Flavored Markdown 0.29, section 5.3, task list items (from memory).
TEST_CASE("a check list is a task list") {
  CHECK(markdown(Checklist{{plain("goggles on"), plain("- *a*")}}) ==
        "- [ ] goggles on\n- [ ] - \\*a\\*\n");
  CHECK(render_markdown({"", {Bullets{{plain("a")}}, Checklist{{plain("b")}}}}) ==
        "- a\n\n* [ ] b\n");
}

TEST_CASE("a sheet of paper ends in a thematic break, and only between blocks") {
  const Document document{"",
                          {PageBreak{}, Bullets{{plain("a")}}, PageBreak{}, PageBreak{},
                           Paragraph{}, Bullets{{plain("b")}}, PageBreak{}}};
  CHECK(render_markdown(document) == "- a\n\n---\n\n- b\n");
}

TEST_CASE("the foot stands once, at the end of the Markdown") {
  CHECK(render_markdown({"T", {Paragraph{plain("a")}}, "Goggles *on*."}) ==
        "# T\n\na\n\nGoggles \\*on\\*.\n");
}

TEST_CASE("a form keeps its empty cells in Markdown") {
  CHECK(markdown(Table{"", {{"time", Align::left}, {"sun", Align::left}}, {{"", ""}}, true}) ==
        "| time | sun |\n| --- | --- |\n| | |\n");
}

// Also read with cmark 0.30.2 and cmark-gfm 0.29, as the tones in and around links below.
TEST_CASE("links carry an address that no flavour misreads") {
  const auto link = [](const char* words, const char* to) {
    return markdown(Paragraph{{{words, Tone::plain, to}}});
  };
  CHECK(link("JCGM [106]", "https://example.org/a_(b)?c=1&copy=2") ==
        "[JCGM \\[106\\]](https://example.org/a_%28b%29?c=1&amp;copy=2)\n");
  CHECK(link("the readings", "readings.csv") == "[the readings](readings.csv)\n");
  CHECK(link("a", "inputs/a (b) <c>.yaml") == "[a](inputs/a%20%28b%29%20%3Cc%3E.yaml)\n");
  CHECK(markdown(Bullets{{{{"1. a", Tone::plain, "b.csv"}}}}) == "- [1. a](b.csv)\n");
  CHECK_THROWS_AS(link("a", "javascript:b"), BugError);
  CHECK_THROWS_AS(link("a", "#nowhere"), BugError);
}

TEST_CASE("tones in and around links") {
  CHECK(markdown(Paragraph{{{"see ", Tone::plain},
                            {"a", Tone::bad, "a.csv"},
                            {" b", Tone::plain, "a.csv"},
                            {"c", Tone::strong}}}) == "see [**a** b](a.csv)**c**\n");
  // "**(a)**[b]" is emphasis, since the bracket is punctuation; "x**(a)**" is none.
  CHECK(markdown(Paragraph{{{"(a)", Tone::strong}, {"b", Tone::plain, "b.csv"}}}) ==
        "**(a)**[b](b.csv)\n");
  CHECK(markdown(Paragraph{{{"x", Tone::plain}, {"(a)", Tone::strong, "b.csv"}}}) ==
        "x[**(a)**](b.csv)\n");
}

TEST_CASE("a link to a part leads to the name that flavours give its heading") {
  Document document{"Power",
                    {Heading{1, plain("Power"), "a"},
                     Heading{1, plain("What was, when: 5 % (or less)"), "b"},
                     Heading{1, plain("Gr\u00f6\u00dfe"), "c"}, Figure{"map", "M", "", ""}}};
  for (const char* to : {"#a", "#b", "#c", "#map"})
    document.blocks.push_back(Paragraph{{{"x", Tone::plain, to}}});
  // The second name also by pandoc 2.17 (gfm). A title of the same words comes first; beyond ASCII,
  // and for pictures, the words must do.
  CHECK_THAT(render_markdown(document),
             Catch::EndsWith("\n[x](#power-1)\n\n[x](#what-was-when-5--or-less)\n\nx\n\nx\n"));
}

TEST_CASE("a table leads to its file in Markdown") {
  CHECK(markdown(Table{"", {{"a", Align::left}}, {{"1"}}, false, "shots.csv"}) ==
        "| a |\n| --- |\n| 1 |\n\nAll columns as a file: [shots.csv](shots.csv)\n");
}

TEST_CASE("a photograph is told in words, or linked as its file") {
  const Document document{
      "", {Photo{"photos/1 a.jpg", "After: [scuff]", "A *mark*.", "image/jpeg", "x", 1, 1}}};
  CHECK(render_markdown(document) == "**Photograph: After: \\[scuff\\]**. A \\*mark\\*.\n");
  CHECK(render_markdown(document, {.pictures = true}) ==
        "**Photograph: After: \\[scuff\\]**\n\n![A \\*mark\\*.](photos/1%20a.jpg)\n");
  CHECK_THROWS_AS(markdown(Photo{"../a.jpg", "A", "", "image/jpeg", "x", 1, 1}), BugError);
  CHECK_THROWS_AS(markdown(Photo{"a.jpg", "", "", "image/jpeg", "x", 1, 1}), BugError);
}

TEST_CASE("an opening in Markdown: sentence, facts, cautions, picture") {
  const Opening opening{{{"It withstood", Tone::good}, {", so far.", Tone::plain}},
                        Figure{"map", "Hits", "Five places.", "<svg/>"},
                        {{"loss", {plain("0.4 %")}}},
                        {plain("Not a certification test.")}};
  CHECK(markdown(opening) == "**It withstood, so far.**\n\n- **loss**: 0.4 %\n\n"
                             "* Not a certification test.\n\n**Figure: Hits**. Five places.\n");
  CHECK(markdown(Opening{plain("It withstood."), {}, {}, {}}) == "**It withstood.**\n");
  CHECK_THROWS_AS(markdown(Opening{}), BugError);
}

TEST_CASE("what no Markdown can hold is a broken promise") {
  CHECK_THROWS_AS(markdown(Heading{4, plain("a")}), BugError);
  CHECK_THROWS_AS(markdown(Table{"", {}, {}}), BugError);
  CHECK_THROWS_AS(markdown(Table{"", {{"a", Align::left}}, {{"1", "2"}}}), BugError);
  CHECK_THROWS_AS(markdown(CautionList{{{"a", "", "", ""}}}), BugError);
  CHECK_THROWS_AS(markdown(Figure{"a", "", "", ""}), BugError);
  CHECK_THROWS_AS(markdown(Figure{"../a", "A", "", ""}), BugError);
}
