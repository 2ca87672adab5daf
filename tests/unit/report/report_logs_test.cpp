#include <algorithm>
#include <set>

#include "hailwright/report/write_up.hpp"
#include "report/report_sections.hpp"
#include "support/catch.hpp"
#include "support/document_words.hpp"
#include "support/logged_test.hpp"
#include "support/test_builder.hpp"
#include "support/written_up.hpp"

using namespace hailwright;
using namespace hailwright::testing;

namespace {

std::vector<std::string> picture_ids(const Document& document) {
  std::vector<std::string> ids;
  for (const Block& block : document.blocks) {
    if (const auto* figure = std::get_if<Figure>(&block)) ids.push_back(figure->id);
  }
  return ids;
}

}  // namespace

TEST_CASE("report logs: a section with facts, pictures and both tables") {
  const WrittenUp written(logged_test());
  Document out;
  append_logs(out, ReportPart(written.write_up, 0));
  CHECK(picture_ids(out) == std::vector<std::string>{"log-1", "session-log-1"});
  const std::string s = words(out);
  CHECK_THAT(s, Contains("From the loggers") && Contains("cannot tell whether the panel"));
  CHECK_THAT(s, Contains("logs.csv") && Contains("sessions.csv"));
  CHECK_THAT(s, Contains("2 rows could not be read"));
}

TEST_CASE("report logs: a record without logs has no such section") {
  const WrittenUp written{TestBuilder()};
  Document out;
  append_logs(out, ReportPart(written.write_up, 0));
  CHECK(out.blocks.empty());
}

TEST_CASE("report logs: pictures of several records have names of their own") {
  WrittenUp written(logged_test());
  written.add(logged_test());
  const std::vector<std::string> ids = picture_ids(compose_report(written.write_up));
  CHECK(std::set<std::string>(ids.begin(), ids.end()).size() == ids.size());
  for (const char* id : {"log-1-1", "log-1-2", "session-log-1-1", "session-log-1-2"}) {
    CAPTURE(id);
    CHECK(std::find(ids.begin(), ids.end(), id) != ids.end());
  }
}
