#include <algorithm>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "hailwright/core/contract.hpp"
#include "hailwright/report/render.hpp"
#include "support/catch.hpp"
#include "support/markup.hpp"

using namespace hailwright;
using markup::Element;

namespace {

/// What a label might try: markup, attributes, entities, control characters, an escape sequence, a
/// bidirectional override, bytes that are not UTF-8, a character that XML forbids.
const std::string nasty = "<b onclick=\"x\">'&amp;'</b></title></style><script>a()</script>\x1b[31m"
                          "\u202e\x80\x01\uFFFF";
const std::string shown =
    "<b onclick=\"x\">'&amp;'</b></title></style><script>a()</script>?[31m????";

std::string picture(const std::string& id) {
  return "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 10 10\">\n  <title id=\"" + id +
         "-title\">A &amp; B</title>\n  <circle cx=\"5\" cy=\"5\" r=\"2\"/>\n</svg>\n";
}

Runs all_tones(const std::string& text) {
  return {{text, Tone::plain},
          {text, Tone::strong},
          {text, Tone::good},
          {text, Tone::bad},
          {text, Tone::open}};
}

/// One block of each kind, each text nasty.
Document everything() {
  const std::string& t = nasty;
  return {t,
          {Heading{1, all_tones(t)}, Paragraph{all_tones(t)}, Facts{{{t, {plain(t), plain(t)}}}},
           Heading{2, plain(t)},
           Table{t, {{t, Align::left}, {t, Align::right}}, {{t, t}, {"b", ""}}},
           Table{"", {{"time", Align::left}, {"power W", Align::left}}, {{"", ""}}, true},
           Bullets{{plain(t)}}, CautionList{{{t, t, t, t}, {"", "A", "Do.", ""}}},
           Snippet{{t, "  indented", "```"}}, Figure{"a", t, t, picture("a")},
           Figure{"b", "B", "", picture("b")}, Checklist{{all_tones(t)}}, PageBreak{},
           Heading{1, plain("Last")}, PageBreak{}},
          t};
}

std::vector<Element> elements(const Document& document) {
  return markup::read(render_html(document));
}

/// The rendered block alone.
std::string inside_main(Block block) {
  const std::string page = render_html({"T", {std::move(block)}});
  const std::string start = "<main id=\"the_text\" tabindex=\"-1\">\n";
  const std::size_t from = page.find(start) + start.size();
  return page.substr(from, page.find("</main>") - from);
}

std::vector<std::string> names_of_headings(const std::vector<Element>& page) {
  std::vector<std::string> names;
  for (const Element& e : page) {
    if (e.name.size() == 2 && e.name[0] == 'h' && e.name[1] >= '1' && e.name[1] <= '6')
      names.push_back(e.name);
  }
  return names;
}

}  // namespace

TEST_CASE("the reader of markup refuses what is not well-formed") {
  for (const char* text :
       {"<a><b></a></b>", "<a>", "</a>", "<a></a><b></b>", "<a x=\"1\" x=\"2\"></a>", "<a>&</a>",
        "<a x=\"<\"></a>", "<a x=1></a>", "<a>\x1b</a>", "<a></a>x", ""}) {
    CAPTURE(text);
    CHECK_THROWS_AS(markup::read(text), std::runtime_error);
  }
  const auto read = markup::read("<a x=\"&lt;\">1<b/>2</a>");
  REQUIRE(read.size() == 2);
  CHECK(read[0].text == "12");
  CHECK(read[0].attributes.at("x") == "<");
  CHECK(read[1].parent == 0);
}

// Also read by the parsers of Python 3.11 (xml.dom.minidom) and Chromium 156 while it was written.
TEST_CASE("a page with one block of each kind is well-formed XML") {
  const std::vector<Element> page = elements(everything());
  CHECK(page.front().name == "html");
  CHECK(page.front().attributes.at("lang") == "en");
  for (const char* name : {"title", "header", "main", "footer", "dl", "caption", "thead", "ul",
                           "ol", "aside", "pre", "code", "figure", "figcaption", "svg", "input"}) {
    CAPTURE(name);
    CHECK(markup::count(page, name) >= 1);
  }
}

TEST_CASE("every text comes out as text") {
  const std::vector<Element> page = elements(everything());
  // Elements whose own text is the whole of it: name, title, foot and the room for it 4; heading of
  // five tones 5; paragraph 5; label and lines of a fact 3; heading 1; caption, heads and cells 5;
  // bullet 1; a caution's title and text 2; caption of the picture 1; check list 5.
  int whole = 0;
  for (const Element& e : page) {
    CHECK(e.name != "script");
    for (const auto& [key, value] : e.attributes) {
      CAPTURE(e.name, key, value);
      CHECK(key.substr(0, 2) != "on");
    }
    if (e.text == shown) ++whole;
  }
  CHECK(whole == 4 + 5 + 5 + 3 + 1 + 5 + 1 + 2 + 1 + 5);
  // Where other words stand beside it, or in an attribute.
  const std::string bytes = render_html(everything());
  const std::string source =
      "&lt;b onclick=&quot;x&quot;&gt;&#39;&amp;amp;&#39;&lt;/b&gt;&lt;/title&gt;&lt;/style&gt;"
      "&lt;script&gt;a()&lt;/script&gt;?[31m????";
  for (const std::string& place : {"</strong> (" + source + ")</p>", ">Source: " + source + "</p>",
                                   "<code>" + source + "\n  indented\n```\n</code>",
                                   "role=\"img\" aria-label=\"" + source + "\"",
                                   "tabindex=\"0\" aria-label=\"" + source + "\""}) {
    CAPTURE(place);
    CHECK(bytes.find(place) != std::string::npos);
  }
}

TEST_CASE("the same document gives the same bytes") {
  CHECK(render_html(everything()) == render_html(everything()));
}

TEST_CASE("nothing is fetched and no script can run") {
  const std::vector<Element> page = elements(everything());
  bool guarded = false;
  for (const Element& e : page) {
    CAPTURE(e.name);
    for (const char* name : {"script", "link", "iframe", "object", "embed", "img", "form", "base"})
      CHECK(e.name != name);
    CHECK(e.attributes.count("src") == 0);
    if (const auto href = e.attributes.find("href"); href != e.attributes.end())
      CHECK(href->second.substr(0, 1) == "#");
    if (e.name == "meta" && e.attributes.count("http-equiv") == 1) {
      guarded = true;
      CHECK(e.attributes.at("http-equiv") == "Content-Security-Policy");
      CHECK(e.attributes.at("content") ==
            "default-src 'none'; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; "
            "form-action 'none'");
    }
  }
  CHECK(guarded);
}

TEST_CASE("ids are unique, and every link leads to one") {
  Document document = everything();
  for (const char* part : {"x", "y", "z"})
    document.blocks.push_back(Heading{1, plain(part)});
  std::set<std::string> ids;
  std::vector<std::string> links;
  for (const Element& e : elements(document)) {
    if (e.attributes.count("id") == 1) CHECK(ids.insert(e.attributes.at("id")).second);
    if (e.attributes.count("href") == 1) links.push_back(e.attributes.at("href").substr(1));
    if (e.attributes.count("aria-labelledby") == 1)
      links.push_back(e.attributes.at("aria-labelledby"));
  }
  CHECK(links.size() == 7);  // past the contents, name of the contents, five parts
  for (const std::string& link : links) {
    CAPTURE(link);
    CHECK(ids.count(link) == 1);
  }
}

TEST_CASE("ids that clash between pictures are a broken promise") {
  const Document twice{"", {Figure{"a", "A", "", picture("a")}, Figure{"a", "A", "", "<svg/>"}}};
  CHECK_THROWS_AS(render_html(twice), BugError);
  const Document inside{"",
                        {Figure{"a", "A", "", picture("x")}, Figure{"b", "B", "", picture("x")}}};
  CHECK_THROWS_AS(render_html(inside), BugError);
}

TEST_CASE("headings go down by one level at a time") {
  const std::vector<Block> blocks = {Heading{3, plain("a")}, Heading{2, plain("b")},
                                     Heading{3, plain("c")}};
  CHECK(names_of_headings(elements({"T", blocks})) ==
        std::vector<std::string>{"h1", "h2", "h2", "h3"});
  CHECK(names_of_headings(elements({"", blocks})) == std::vector<std::string>{"h1", "h1", "h2"});
  CHECK(names_of_headings(elements({"T", {Heading{1, plain("a")}, Heading{3, plain("b")}}})) ==
        std::vector<std::string>{"h1", "h2", "h3"});
}

TEST_CASE("three parts of the second level get a table of contents") {
  Document document{"T", {Heading{1, plain("a")}, Heading{1, plain("b & c")}}};
  CHECK(markup::count(elements(document), "nav") == 0);
  document.blocks.push_back(Heading{1, plain("d")});
  const std::string page = render_html(document);
  CHECK_THAT(page, Contains("<li><a href=\"#part_1\">a</a></li>\n"
                            "<li><a href=\"#part_2\">b &amp; c</a></li>\n"
                            "<li><a href=\"#part_3\">d</a></li>\n"));
  // Several panels without a title: their names too.
  const Document panels{"",
                        {Heading{1, plain("A")}, Heading{2, plain("a")}, Heading{2, plain("b")},
                         Heading{1, plain("B")}, Heading{2, plain("c")}, Heading{3, plain("d")}}};
  CHECK_THAT(render_html(panels),
             Contains("<li><a href=\"#part_1\">A</a></li>\n"
                      "<li class=\"under\"><a href=\"#part_2\">a</a></li>\n"
                      "<li class=\"under\"><a href=\"#part_3\">b</a></li>\n"
                      "<li><a href=\"#part_4\">B</a></li>\n"
                      "<li class=\"under\"><a href=\"#part_5\">c</a></li>\n</ol>"));
}

TEST_CASE("a page always has a name") {
  CHECK_THAT(render_html({}), Contains("<title>hailwright</title>"));
  CHECK_THAT(render_html({"", {Heading{1, plain("Panel A")}}}), Contains("<title>Panel A</title>"));
  CHECK_THAT(render_html({"T", {Heading{1, plain("Panel A")}}}), Contains("<title>T</title>"));
}

TEST_CASE("tones are classes of bold words") {
  CHECK(inside_main(Paragraph{{{"a", Tone::plain},
                               {" b", Tone::strong},
                               {" c", Tone::good},
                               {" d", Tone::bad},
                               {" e", Tone::open}}}) ==
        "<p>a<strong> b</strong><strong class=\"good\"> c</strong><strong class=\"bad\"> "
        "d</strong><strong class=\"open\"> e</strong></p>\n");
}

TEST_CASE("a fact's lines follow its label") {
  CHECK(inside_main(Facts{{{"power", {plain("a"), plain("b")}}, {"none", {}}}}) ==
        "<dl>\n<div><dt>power</dt><dd>a</dd><dd>b</dd></div>\n"
        "<div><dt>none</dt><dd></dd></div>\n</dl>\n");
}

TEST_CASE("heads of columns and names of rows are marked as such") {
  CHECK(inside_main(Table{"All", {{"place", Align::left}, {"J", Align::right}}, {{"1", "1.99"}}}) ==
        "<div class=\"scroll\" role=\"group\" tabindex=\"0\" aria-label=\"All\"><table>\n"
        "<caption>All</caption>\n"
        "<thead><tr><th scope=\"col\">place</th><th scope=\"col\" class=\"number\">J</th></tr>"
        "</thead>\n<tbody>\n"
        "<tr><th scope=\"row\">1</th><td "
        "class=\"number\">1.99</td></tr>\n</tbody>\n</table></div>\n");
  // Cells that repeat, or are empty, name no row; an empty head is no head.
  CHECK_THAT(
      inside_main(Table{"", {{"a", Align::left}, {"", Align::left}}, {{"1", ""}, {"1", ""}}}),
      Contains("<th scope=\"col\">a</th><td></td>") && !Contains("scope=\"row\"") &&
          !Contains("<caption>"));
  CHECK_THAT(inside_main(Table{"", {{"", Align::left}}, {{"1"}}}),
             !Contains("<thead>") && !Contains("scope"));
  CHECK_THAT(inside_main(Table{"", {{"a", Align::left}, {"b", Align::left}}, {}}),
             Contains("<td class=\"none\" colspan=\"2\">(no rows)</td>"));
}

TEST_CASE("every caution is printed with its id and its source") {
  CHECK(inside_main(CautionList{{{"eyes", "Ice in the eyes", "Wear goggles.", "EN 166, read"},
                                 {"", "B", "Do b.", ""}}}) ==
        "<aside class=\"cautions\" role=\"note\" aria-label=\"Cautions\"><ul>\n"
        "<li><p><strong>Ice in the eyes</strong> (eyes)</p><p>Wear goggles.</p>"
        "<p class=\"source\">Source: EN 166, read</p></li>\n"
        "<li><p><strong>B</strong></p><p>Do b.</p></li>\n</ul></aside>\n");
}

TEST_CASE("lines to copy keep their blanks") {
  CHECK_THAT(inside_main(Snippet{{"safety:", "  eyes: <goggles>"}}),
             Contains("><code>safety:\n  eyes: &lt;goggles&gt;\n</code></pre>"));
}

TEST_CASE("a picture is told to whoever cannot see it") {
  const std::string svg = picture("map");
  CHECK(inside_main(Figure{"map", "Aim map", "Five places.", svg}) ==
        "<figure id=\"map_figure\">\n<div class=\"picture\" role=\"img\" aria-label=\"Five "
        "places.\">" +
            svg + "</div>\n<figcaption>Aim map</figcaption>\n</figure>\n");
  CHECK_THAT(inside_main(Figure{"map", "Aim map", "", svg}), Contains("aria-label=\"Aim map\""));
}

TEST_CASE("a check list has a box in front of each item") {
  CHECK(inside_main(Checklist{{plain("goggles on"), plain("lookout")}}) ==
        "<ol class=\"checklist\" role=\"list\">\n"
        "<li><label><input type=\"checkbox\" /><span>goggles on</span></label></li>\n"
        "<li><label><input type=\"checkbox\" /><span>lookout</span></label></li>\n</ol>\n");
}

TEST_CASE("a new sheet begins with the next block and only between blocks") {
  const Document document{"T",
                          {PageBreak{}, Paragraph{plain("a")}, PageBreak{}, PageBreak{},
                           Paragraph{}, Paragraph{plain("b")}, PageBreak{}}};
  CHECK_THAT(render_html(document),
             Contains(">\n<p>a</p>\n<p style=\"break-before: page\">b</p>\n</main>"));
}

TEST_CASE("the foot stands on every sheet, with as much room kept for it") {
  const std::string page = render_html({"T", {}, "Nobody in front & goggles on."});
  CHECK_THAT(page, Contains("<div class=\"reserve\" aria-hidden=\"true\"><p>Nobody in front &amp; "
                            "goggles on.</p></div>\n<footer><p>Nobody in front &amp; goggles "
                            "on.</p></footer>\n"));
  CHECK_THAT(render_html({"T", {}, " "}), !Contains("<footer>") && !Contains("class=\"reserve\""));
}

TEST_CASE("blocks without content leave no empty elements") {
  const Document document{"T",
                          {Facts{}, Bullets{}, CautionList{}, Snippet{}, Paragraph{}, Checklist{}}};
  CHECK_THAT(render_html(document), Contains("tabindex=\"-1\">\n</main>"));
}

TEST_CASE("what no page can hold is a broken promise") {
  CHECK_THROWS_AS(inside_main(Heading{4, plain("a")}), BugError);
  CHECK_THROWS_AS(inside_main(Table{"", {}, {}}), BugError);
  CHECK_THROWS_AS(inside_main(Table{"", {{"a", Align::left}}, {{"1", "2"}}}), BugError);
  CHECK_THROWS_AS(inside_main(CautionList{{{"a", "", "", ""}}}), BugError);
  CHECK_THROWS_AS(inside_main(Figure{"a b", "A", "", "<svg/>"}), BugError);
  CHECK_THROWS_AS(inside_main(Figure{"", "A", "", "<svg/>"}), BugError);
  CHECK_THROWS_AS(inside_main(Figure{"a", "", "", "<svg/>"}), BugError);
  CHECK_THROWS_AS(inside_main(Figure{"a", "A", "", "<p/>"}), BugError);
}
