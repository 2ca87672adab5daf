#include "hailwright/evaluate/defaults.hpp"

#include <fstream>
#include <set>
#include <sstream>

#include "support/catch.hpp"

using namespace hailwright;

TEST_CASE("every default has one row with what, taken and why") {
  std::set<DefaultId> ids;
  for (const DefaultRow& row : default_rows()) {
    CAPTURE(row.what);
    CHECK(ids.insert(row.id).second);
    CHECK_FALSE(row.what.empty());
    CHECK_FALSE(row.taken.empty());
    CHECK_FALSE(row.replace.empty());
    CHECK_FALSE(row.why.empty());
  }
  CHECK(ids.size() == static_cast<std::size_t>(DefaultId::display_step) + 1);
}

TEST_CASE("defaults are listed once, in the order of the table") {
  Assumptions a;
  a.use(DefaultId::air_density);
  a.use(DefaultId::risk);
  a.use(DefaultId::air_density);
  CHECK(a.used() == std::vector<DefaultId>{DefaultId::risk, DefaultId::air_density});
  CHECK(a.uses(DefaultId::risk));
  CHECK_FALSE(a.uses(DefaultId::density));
}

TEST_CASE("docs/defaults.md is the table") {
  std::ifstream in(std::string(HAILWRIGHT_SOURCE_DIR) + "/docs/defaults.md");
  std::ostringstream text;
  text << in.rdbuf();
  std::size_t rows = 0;
  for (const DefaultRow& row : default_rows()) {
    std::ostringstream line;
    line << "| " << row.what << " | " << row.taken << " | `" << row.replace << "` | " << row.why
         << " | " << hailwright::text(row.status) << " |";
    INFO(line.str());
    CHECK(text.str().find(line.str()) != std::string::npos);
    ++rows;
  }
  std::size_t table_lines = 0;
  std::istringstream lines(text.str());
  for (std::string line; std::getline(lines, line);) {
    if (line.starts_with("| ") && !line.starts_with("| what ")) ++table_lines;
  }
  CHECK(table_lines == rows);
}
