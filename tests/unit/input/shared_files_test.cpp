#include "input/shared_files.hpp"

#include "support/catch.hpp"
#include "support/input_files.hpp"

using namespace hailwright;
using input_files::Files;
using input_files::good_files;
using input_files::seen;
using input_files::Seen;

namespace {

void replace(std::string& text, const std::string& from, const std::string& to) {
  const std::size_t at = text.find(from);
  REQUIRE(at != std::string::npos);
  text.replace(at, from.size(), to);
}

/// Reads records one by one as a line-up does, each with its own texts, and counts what is opened.
class Reader {
public:
  explicit Reader(Files files) : files_(std::move(files)), load_(input_files::loader(files_)) {}

  Checked<Test> read(const std::string& path, SourceSet sources = {}) {
    const Loader counting = [this](const std::string& name, std::size_t largest) {
      ++opened[name];
      return load_(name, largest);
    };
    Checked<Test> checked = read_test(path, counting, sources, {}, &shared_);
    rendered = render_diagnostics(checked.notes, sources);
    return checked;
  }
  std::map<std::string, int> opened;
  std::string rendered;

private:
  Files files_;
  Loader load_;
  SharedFiles shared_;
};

Files two_records() {
  Files files = good_files();
  files["second.yaml"] = files.at("record.yaml");
  return files;
}

}  // namespace

TEST_CASE("shared files: a protocol and a panel are opened once") {
  Reader reader(two_records());
  const auto first = reader.read("record.yaml");
  const auto second = reader.read("second.yaml");
  REQUIRE(first.value);
  REQUIRE(second.value);
  CHECK(reader.opened["protocol.yaml"] == 1);
  CHECK(reader.opened["panel.yaml"] == 1);
  CHECK(reader.opened["second.yaml"] == 1);
  CHECK(second.value->protocol.title == first.value->protocol.title);
  CHECK(second.value->protocol.series.size() == first.value->protocol.series.size());
  CHECK(second.value->record.panel.name == first.value->record.panel.name);
  for (std::size_t s = 0; s < first.value->protocol.series.size(); ++s) {
    const auto& a = first.value->protocol.series[s].places;
    const auto& b = second.value->protocol.series[s].places;
    REQUIRE(a.size() == b.size());
    for (std::size_t p = 0; p < a.size(); ++p)
      CHECK(a[p].at.has_value() == b[p].at.has_value());
  }
}

TEST_CASE("shared files: the fault of a shared file is said once and stops every record") {
  Files files = two_records();
  replace(files.at("panel.yaml"), "panel 1\n", "panel 1\nfoo: 1\n");
  Reader reader(files);
  const auto first = reader.read("record.yaml");
  CHECK(seen(first.notes) == std::vector<Seen>{{"K01", 2, 1}});
  CHECK(reader.rendered.find("panel.yaml:2:1") != std::string::npos);
  CHECK_FALSE(first.value);
  const auto second = reader.read("second.yaml");
  CHECK(second.notes.empty());
  CHECK_FALSE(second.value);
}

TEST_CASE("shared files: one that is no YAML is said once") {
  Files files = two_records();
  files.at("protocol.yaml") = "hailwright: protocol 1\ntitle: [\n";
  Reader reader(files);
  CHECK_FALSE(seen(reader.read("record.yaml").notes).empty());
  const auto second = reader.read("second.yaml");
  CHECK(second.notes.empty());
  CHECK_FALSE(second.value);
}

TEST_CASE("shared files: one that is not there is said by each record that names it") {
  Files files = two_records();
  files.erase("panel.yaml");
  Reader reader(files);
  const auto first = seen(reader.read("record.yaml").notes);
  REQUIRE_FALSE(first.empty());
  CHECK(first.at(0).code == "F01");
  CHECK(seen(reader.read("second.yaml").notes) == first);
}

TEST_CASE("shared files: a record's own fault is its own") {
  Files files = two_records();
  replace(files.at("second.yaml"), "record 1\n", "record 1\nfoo: 1\n");
  Reader reader(files);
  CHECK(reader.read("record.yaml").value);
  const auto second = reader.read("second.yaml");
  CHECK(seen(second.notes) == std::vector<Seen>{{"K01", 2, 1}});
  CHECK(reader.rendered.find("second.yaml:2:1") != std::string::npos);
}

// Places in a protocol name its file by number: under another number it is read anew.
TEST_CASE("shared files: places point into the texts of their own record") {
  Reader reader(two_records());
  REQUIRE(reader.read("record.yaml").value);
  SourceSet sources;
  sources.add("before.txt", "something else\n");
  const auto second = reader.read("second.yaml", std::move(sources));
  REQUIRE(second.value);
  const std::uint32_t file = second.value->protocol.series.at(0).origin.file;
  CHECK(file == 3);
  CHECK(reader.read("record.yaml").value->protocol.series.at(0).origin.file == 2);
}
