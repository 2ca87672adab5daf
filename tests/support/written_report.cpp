#include "support/written_report.hpp"

#include <utility>

#include "hailwright/input/readers.hpp"
#include "support/real_files.hpp"

namespace hailwright::testing {

Written::Written(const std::vector<std::string>& demo) {
  const Loader load = [](const std::string& path, std::size_t largest) {
    return real_files()(std::string(HAILWRIGHT_SOURCE_DIR) + "/" + path, largest);
  };
  for (const std::string& path : demo) {
    Checked<Test> read = read_test("protocols/demo/" + path, load, sources);
    INFO(render_diagnostics(read.notes, sources));
    REQUIRE(read.value.has_value());
    add(std::move(*read.value));
  }
}

Written::Written(Test test) {
  add(std::move(test));
}

void Written::add(Test test) {
  tests.push_back(std::move(test));
  CheckPlan check;
  check.trials = 20'000;
  check.shortest = true;
  assessments.push_back(assess(tests.back(), check));
  write_up.judged.push_back({&tests.back(), &assessments.back()});
  write_up.sources = &sources;
  write_up.version = "0.0.0";
}

nlohmann::ordered_json Written::json() const {
  return nlohmann::ordered_json::parse(text());
}

const std::vector<std::string>& demo_records() {
  static const std::vector<std::string> records{
      "flexible-damaged.yaml",  "flexible-extended.yaml",   "flexible-outlying.yaml",
      "flexible-siblings.yaml", "flexible-power-rose.yaml", "rigid-not-reached.yaml",
      "rigid-undecided.yaml",   "rigid-withstood.yaml"};
  return records;
}

}  // namespace hailwright::testing
