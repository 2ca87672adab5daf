#include "support/report_case.hpp"

#include <regex>

#include "hailwright/input/readers.hpp"
#include "hailwright/report/render.hpp"
#include "support/catch.hpp"
#include "support/real_files.hpp"

namespace hailwright::testing {

namespace {

Test read_whole(const std::string& path_in_tree, SourceSet& sources) {
  Checked<Test> read =
      read_test(std::string(HAILWRIGHT_SOURCE_DIR) + "/" + path_in_tree, real_files(), sources);
  INFO(render_diagnostics(read.notes, sources));
  REQUIRE(read.value.has_value());
  return std::move(*read.value);
}

}  // namespace

ReportCase::ReportCase(const std::string& path_in_tree) : test(read_whole(path_in_tree, sources)) {
  begin();
}

ReportCase::ReportCase(Test made) : test(std::move(made)) {
  begin();
}

void ReportCase::begin() {
  write_up.sources = &sources;
  write_up.version = "1.2.3";
  write_up.inputs = {{"inputs/record.yaml", "record.yaml", std::string(64, 'a'), 120}};
  judge();
}

void ReportCase::judge() {
  assessment = assess(test);
  write_up.judged = {{&test, &assessment}};
  write_up.photos.resize(1);
}

std::string words(const Document& document) {
  return std::regex_replace(render_markdown(document), std::regex("\\s+"), " ");
}

}  // namespace hailwright::testing
