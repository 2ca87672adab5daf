#include "cli/picture_files.hpp"

#include "support/catch.hpp"

using namespace hailwright;
using namespace hailwright::cli;

namespace {

Figure figure(const std::string& id, const std::string& svg) {
  Figure f;
  f.id = id;
  f.svg = svg;
  return f;
}

}  // namespace

TEST_CASE("picture files: each picture once, in order, and none without a drawing") {
  Document document;
  Opening opening;
  opening.picture = figure("hits", "<svg>1</svg>");
  document.blocks.emplace_back(opening);
  document.blocks.emplace_back(figure("loss", "<svg>2</svg>"));
  document.blocks.emplace_back(figure("hits", "<svg>1</svg>"));
  document.blocks.emplace_back(figure("budget", ""));
  std::vector<OutputFile> files{{"report.html", "page"}};
  add_pictures(files, document);
  REQUIRE(files.size() == 3);
  CHECK(files[0].name == "report.html");
  CHECK(files[1].name == "hits.svg");
  CHECK(files[1].bytes == "<svg>1</svg>");
  CHECK(files[2].name == "loss.svg");
}
