#include "report/method_sources.hpp"

#include <filesystem>
#include <set>
#include <string>

#include "support/catch.hpp"

using namespace hailwright;

TEST_CASE("method sources: each names a page of docs that is there and every page is named") {
  namespace fs = std::filesystem;
  const fs::path root(HAILWRIGHT_SOURCE_DIR);
  std::set<std::string> named;
  for (const Citation& c : method_sources()) {
    const std::string note(c.note);
    CAPTURE(note);
    REQUIRE(note.starts_with("docs/"));
    const std::string page = note.substr(0, note.find_first_of(",;"));
    CHECK(fs::exists(root / page));
    named.insert(page);
  }
  for (const auto& entry : fs::directory_iterator(root / "docs/methods")) {
    const std::string name = entry.path().filename().string();
    if (name != "README.md") CHECK(named.contains("docs/methods/" + name));
  }
}

TEST_CASE("method sources: ids are told apart from those of tables") {
  std::set<std::string_view> ids;
  for (const Citation& c : method_sources()) {
    CHECK(c.id.starts_with("method-"));
    CHECK(ids.insert(c.id).second);
    CHECK_FALSE(c.title.empty());
    // What was read was read somewhere.
    CHECK((c.status == ReadStatus::read) == !c.read_at.empty());
  }
}
