#include "report/render_html_outline.hpp"

#include "hailwright/core/contract.hpp"
#include "support/catch.hpp"

using namespace hailwright;
using namespace hailwright::detail;

namespace {

Heading heading(int level, const char* words, const char* id = "") {
  return {level, plain(words), id};
}

/// "2 words#id" of each part.
std::vector<std::string> listed(const detail::Outline& outline) {
  std::vector<std::string> lines;
  for (const Part& part : outline.parts)
    lines.push_back(std::to_string(part.depth) + ' ' + part.words + '#' + part.id);
  return lines;
}

using Lines = std::vector<std::string>;

}  // namespace

TEST_CASE("with a title every heading stands under it") {
  const detail::Outline outline =
      outline_of({"T", {heading(1, "A"), heading(3, "a"), heading(2, "b"), heading(1, "B")}});
  CHECK(outline.title == "T");
  CHECK_FALSE(outline.first_part_is_title);
  CHECK(listed(outline) == Lines{"2 A#a", "3 a#a-2", "3 b#b", "2 B#b-2"});
}

TEST_CASE("without a title the first heading is the page's") {
  const detail::Outline outline = outline_of(
      {"",
       {heading(1, "Rigid A"), heading(2, "Power"), heading(3, "Loss"), heading(1, "Cautions")}});
  CHECK(outline.title == "Rigid A");
  CHECK(outline.first_part_is_title);
  CHECK(listed(outline) ==
        Lines{"1 Rigid A#rigid-a", "2 Power#power", "3 Loss#loss", "2 Cautions#cautions"});
  // Where a later one is divided, its parts stand under it.
  CHECK(listed(outline_of({"", {heading(1, "A"), heading(1, "B"), heading(2, "c")}})) ==
        Lines{"1 A#a", "2 B#b", "3 c#c"});
}

TEST_CASE("several panels stand under a title that names them") {
  std::vector<Block> blocks = {heading(1, "Rigid A"), heading(2, "Power"), heading(1, "Rigid B"),
                               heading(2, "Power")};
  detail::Outline outline = outline_of({"", blocks});
  CHECK(outline.title == "Rigid A and Rigid B");
  CHECK_FALSE(outline.first_part_is_title);
  CHECK(outline.listed_depth == 3);
  CHECK(listed(outline) ==
        Lines{"2 Rigid A#rigid-a", "3 Power#power", "2 Rigid B#rigid-b", "3 Power#power-2"});
  for (const Block& block :
       {Block(heading(1, "C")), Block(heading(2, "c")), Block(heading(1, "Cautions"))})
    blocks.push_back(block);
  outline = outline_of({"", blocks});
  CHECK(outline.title == "Rigid A and 2 more");
  CHECK(outline.parts.back().depth == 2);
}

TEST_CASE("a page without any heading is named after the program") {
  CHECK(outline_of({}).title == "hailwright");
  CHECK(outline_of({" ", {Heading{1, {}}}}).title == "hailwright");
  CHECK_FALSE(outline_of({" ", {Heading{1, {}}}}).first_part_is_title);
}

TEST_CASE("ids are given or made from the words, never twice") {
  const Document document{"T",
                          {heading(1, "What was  delivered?"), heading(1, "What was delivered"),
                           heading(1, "Other", "what-was-delivered-2"), heading(1, "\u00fc!"),
                           heading(1, "Map"), Figure{"map", "M", "", "<svg id=\"map\"/>"},
                           heading(1, " -A- ")}};
  CHECK(listed(outline_of(document)) == Lines{"2 What was delivered?#what-was-delivered",
                                              "2 What was delivered#what-was-delivered-3",
                                              "2 Other#what-was-delivered-2", "2 \u00fc!#part",
                                              "2 Map#map-2", "2 -A-#a"});
}

TEST_CASE("three parts of the second level get a table of contents") {
  Document document{"T", {heading(1, "a"), heading(1, "b & c"), heading(2, "under")}};
  CHECK(html_contents(outline_of(document)).empty());
  document.blocks.push_back(heading(1, "d"));
  CHECK(html_contents(outline_of(document)) ==
        "<nav aria-labelledby=\"the_contents\"><h2 id=\"the_contents\">Contents</h2>\n<ol>\n"
        "<li><a href=\"#a\">a</a></li>\n<li><a href=\"#b-c\">b &amp; c</a></li>\n"
        "<li><a href=\"#d\">d</a></li>\n</ol>\n</nav>\n");
}

TEST_CASE("with several panels the contents name their parts too") {
  const Document panels{
      "", {heading(1, "A"), heading(2, "a1"), heading(1, "B"), heading(2, "b1"), heading(3, "b2")}};
  CHECK_THAT(html_contents(outline_of(panels)),
             Contains("<li><a href=\"#a\">A</a></li>\n"
                      "<li class=\"under\"><a href=\"#a1\">a1</a></li>\n"
                      "<li><a href=\"#b\">B</a></li>\n"
                      "<li class=\"under\"><a href=\"#b1\">b1</a></li>\n</ol>"));
  const Opening opening{plain("a"), {}, {}, {}};
  const Document titled{"T",
                        {heading(1, "A"), opening, heading(2, "a1"), heading(1, "B"), opening}};
  CHECK_THAT(html_contents(outline_of(titled)), Contains("<li class=\"under\"><a href=\"#a1\">"));
  // Found by review: on paper nothing led to a panel, and its sections did not say whose they are.
  CHECK_THAT(html_contents(outline_of(panels)), Contains("<nav aria-labelledby=\"the_contents\" "
                                                         "class=\"several\">"));
  std::vector<std::string> of;
  for (const Part& part : outline_of(panels).parts)
    of.push_back(part.of);
  CHECK(of == std::vector<std::string>{"", "A", "", "B", ""});
}

TEST_CASE("a level that is none is a broken promise") {
  CHECK_THROWS_AS(outline_of({"", {heading(0, "a")}}), BugError);
  CHECK_THROWS_AS(outline_of({"", {heading(4, "a")}}), BugError);
}
