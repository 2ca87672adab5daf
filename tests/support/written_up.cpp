#include "support/written_up.hpp"

#include <algorithm>
#include <filesystem>
#include <utility>

#include "hailwright/input/readers.hpp"
#include "support/catch.hpp"
#include "support/real_files.hpp"

namespace hailwright::testing {

namespace {

namespace fs = std::filesystem;

std::vector<std::string> find_demo_names() {
  std::vector<std::string> names;
  for (const auto& entry :
       fs::directory_iterator(std::string(HAILWRIGHT_SOURCE_DIR) + "/protocols/demo")) {
    const fs::path& path = entry.path();
    const std::string name = path.stem().string();
    if (path.extension() == ".yaml" && !name.starts_with("protocol")) names.push_back(name);
  }
  std::sort(names.begin(), names.end());
  REQUIRE(names.size() >= 8);
  return names;
}

}  // namespace

WrittenUp::WrittenUp(Trials trials)
    : sources_(std::make_unique<SourceSet>()), trials_(std::move(trials)) {
  write_up.sources = sources_.get();
  write_up.version = "1.2.3";
  write_up.inputs = {{"inputs/record.yaml", "record.yaml", std::string(64, 'a'), 120}};
}

WrittenUp::WrittenUp(Test test, Trials trials) : WrittenUp(std::move(trials)) {
  add(std::move(test));
}

void WrittenUp::add(Test test) {
  tests_.push_back(std::move(test));
  assessments_.push_back(assess(tests_.back(), trials_));
  write_up.judged.push_back({&tests_.back(), &assessments_.back()});
  write_up.photos.resize(tests_.size());
}

void WrittenUp::read(const std::string& path_in_tree) {
  const Loader load = [](const std::string& path, std::size_t largest) {
    return real_files()(std::string(HAILWRIGHT_SOURCE_DIR) + "/" + path, largest);
  };
  Checked<Test> read = read_test(path_in_tree, load, *sources_);
  INFO(render_diagnostics(read.notes, *sources_));
  REQUIRE(read.value.has_value());
  add(std::move(*read.value));
}

void WrittenUp::judge() {
  for (std::size_t i = 0; i < tests_.size(); ++i) {
    assessments_[i] = assess(tests_[i], trials_);
    write_up.judged[i] = {&tests_[i], &assessments_[i]};
  }
}

CheckPlan few_trials() {
  CheckPlan check;
  check.trials = 20'000;
  check.shortest = true;
  return check;
}

const std::vector<std::string>& demo_names() {
  static const std::vector<std::string> names = find_demo_names();
  return names;
}

std::string demo_path(const std::string& name) {
  return "protocols/demo/" + name + ".yaml";
}

WrittenUp written_demo(const std::vector<std::string>& names, WrittenUp::Trials trials) {
  WrittenUp written(std::move(trials));
  for (const std::string& name : names)
    written.read(demo_path(name));
  return written;
}

}  // namespace hailwright::testing
