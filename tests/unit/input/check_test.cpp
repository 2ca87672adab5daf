#include "hailwright/input/readers.hpp"

#include "support/catch.hpp"
#include "support/input_files.hpp"

using namespace hailwright;
using input_files::Files;
using input_files::good_files;
using input_files::only;

TEST_CASE("check: any of the four kinds, by the first key") {
  Files files = good_files();
  files["columns.yaml"] = "hailwright: columns 1\nseparator: tab\n";
  for (const std::string path : {"protocol.yaml", "panel.yaml", "record.yaml", "columns.yaml"}) {
    SourceSet sources;
    const Diagnostics notes = check_file(path, input_files::loader(files), sources);
    CAPTURE(path, input_files::seen(notes));
    CHECK(notes.empty());
  }
  for (const std::string path : {"protocol.yaml", "panel.yaml", "record.yaml", "columns.yaml"})
    files[path] += "colour: blue\n";
  for (const std::string path : {"protocol.yaml", "panel.yaml", "columns.yaml"}) {
    SourceSet sources;
    CHECK(only(check_file(path, input_files::loader(files), sources)).code == "K01");
  }
  SourceSet sources;
  CHECK(check_file("record.yaml", input_files::loader(files), sources).items().size() == 3);
}

TEST_CASE("check: what is none of them") {
  const Files files{{"shots.csv", "series,place\nsmall,1\n"}};
  SourceSet sources;
  CHECK(only(check_file("shots.csv", input_files::loader(files), sources)).code == "K09");
  CHECK(only(check_file("none.yaml", input_files::loader(files), sources)).code == "F01");
}
