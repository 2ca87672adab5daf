#include "report/render_html_picture.hpp"

#include "hailwright/core/contract.hpp"
#include "support/catch.hpp"

using namespace hailwright;
using namespace hailwright::detail;

TEST_CASE("the ids inside a drawing") {
  CHECK(ids_in(R"(<svg id="a"><title id="a-title">id="b"</title><g id="a-c"/></svg>)") ==
        std::vector<std::string>{"a", "a-title", "a-c"});
  CHECK(ids_in("<svg/>").empty());
}

// Found by review: each picture was announced up to three times, by its box, a box in that, and
// itself.
TEST_CASE("a drawing scrolls in a box and tells itself to whoever cannot see it") {
  CHECK(
      html_drawing({"map", "Aim \"map\"", "Five <places>.", "<svg/>"}) ==
      "\n<div class=\"picture\" role=\"group\" tabindex=\"0\" aria-label=\"Picture\"><svg/></div>\n"
      "<figcaption>Aim &quot;map&quot;</figcaption>\n");
}

// The same bytes by `printf '\377\330\377' | base64`.
TEST_CASE("a photograph is inside the page") {
  CHECK(html_photograph(
            {"photos/1.jpg", "A \"scuff\"", "A <mark>.", "image/jpeg", "\xff\xd8\xff", 640, 480}) ==
        "\n<img src=\"data:image/jpeg;base64,/9j/\" width=\"640\" height=\"480\" alt=\"A "
        "&lt;mark&gt;.\" />\n<figcaption>A &quot;scuff&quot;</figcaption>\n");
  CHECK_THAT(html_photograph({"a.png", "A scuff", " ", "image/png", "a", 1, 1}),
             Contains("alt=\"A scuff\""));
}

TEST_CASE("a photograph that is none is a broken promise") {
  const Photo good{"a.png", "A", "", "image/png", "a", 1, 1};
  CHECK_NOTHROW(html_photograph(good));
  Photo bad = good;
  bad.title.clear();
  CHECK_THROWS_AS(html_photograph(bad), BugError);
  bad = good;
  bad.media_type = "image/svg+xml";
  CHECK_THROWS_AS(html_photograph(bad), BugError);
  bad = good;
  bad.bytes.clear();
  CHECK_THROWS_AS(html_photograph(bad), BugError);
  bad = good;
  bad.width = 0;
  CHECK_THROWS_AS(html_photograph(bad), BugError);
}
