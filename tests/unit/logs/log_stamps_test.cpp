#include "logs/log_stamps.hpp"

#include <string>
#include <vector>

#include "support/catch.hpp"
#include "support/log_beginning.hpp"

using namespace hailwright;
using namespace hailwright::detail;
using test::LogBeginning;

namespace {

LogBeginning log_of(const std::vector<std::string>& stamps) {
  std::string text = "when;power W\n";
  for (const std::string& stamp : stamps)
    text += stamp + ";1\n";
  return LogBeginning(text);
}

std::optional<StampForm> form_of(LogBeginning& log, std::optional<DateOrder> dates = {}) {
  HeadNotes notes(log.file, log.sources, log.notes);
  const auto layout = find_layout(log.text, std::nullopt, notes);
  REQUIRE(layout);
  return find_stamp_form(*layout, {0, std::nullopt}, dates, notes);
}

}  // namespace

TEST_CASE("log stamps: the order is told by any row of the beginning") {
  LogBeginning american = log_of({"06/12/2026 10:02", "06/13/2026 10:02", "06/14/2026 10:02"});
  const auto month_first = form_of(american);
  REQUIRE(month_first);
  CHECK(month_first->dates == DateOrder::month_first);
  CHECK(month_first->date_mark == '/');
  LogBeginning european = log_of({"12/06/2026 10:02", "13/06/2026 10:02"});
  CHECK(form_of(european)->dates == DateOrder::day_first);
  LogBeginning one = log_of({"13/06/2026 10:02", "12/06/2026 10:02", "11/06/2026 10:02"});
  CHECK(form_of(one)->dates == DateOrder::day_first);
}

TEST_CASE("log stamps: an order that nothing tells is asked for") {
  LogBeginning open = log_of({"06/07/2026 10:02", "06/07/2026 10:03"});
  CHECK_FALSE(form_of(open));
  CHECK(open.only() == "L06 2:1");
  LogBeginning stated(open.text);
  CHECK(form_of(stated, DateOrder::month_first)->dates == DateOrder::month_first);
  CHECK(stated.notes.empty());
  LogBeginning both = log_of({"06/13/2026 10:02", "13/06/2026 10:02"});
  CHECK_FALSE(form_of(both));
  CHECK(both.only() == "L06 3:1");
  CHECK_THAT(both.messages(), Contains("log.csv:2:1"));
}

TEST_CASE("log stamps: the form of most rows") {
  LogBeginning log =
      log_of({"2026-06-14 10:02:03 AM", "2026-06-14T10:02:04", "2026-06-14T10:02:05"});
  const auto form = form_of(log);
  REQUIRE(form);
  CHECK_FALSE(form->twelve_hour);
}

TEST_CASE("log stamps: none that is read") {
  LogBeginning log = log_of({"14.06.26 10:02", "14.06.26 10:03"});
  CHECK_FALSE(form_of(log));
  CHECK(log.only() == "L12 2:1");
  CHECK_THAT(log.messages(), Contains("four digits"));
  LogBeginning seconds = log_of({"0.5", "1.5"});
  CHECK_FALSE(form_of(seconds));
  CHECK_THAT(seconds.messages(), Contains("count from the start"));
  LogBeginning blank("power W;when\n1;\n2;\n");
  HeadNotes notes(blank.file, blank.sources, blank.notes);
  const auto layout = find_layout(blank.text, std::nullopt, notes);
  REQUIRE(layout);
  CHECK_FALSE(find_stamp_form(*layout, {1, std::nullopt}, std::nullopt, notes));
  CHECK(blank.only() == "L12 1:9");
}

TEST_CASE("log stamps: the usual step is the median of the steps forward") {
  LogBeginning log = log_of({"2026-06-14 10:00:00", "2026-06-14 10:00:02", "2026-06-14 10:00:01",
                             "2026-06-14 10:00:03", "2026-06-14 10:00:05", "2026-06-14 11:00:00"});
  HeadNotes notes(log.file, log.sources, log.notes);
  const auto layout = find_layout(log.text, std::nullopt, notes);
  REQUIRE(layout);
  CHECK(find_usual_step(*layout, {0, std::nullopt}, StampForm{}) == 2.0);
  LogBeginning one = log_of({"2026-06-14 10:00:00"});
  const auto single = find_layout(one.text, std::nullopt, notes);
  REQUIRE(single);
  CHECK(find_usual_step(*single, {0, std::nullopt}, StampForm{}) == 0.0);
}

TEST_CASE("log stamps: mends") {
  CHECK_THAT(mend_of_times("14/6/26 10:02"), Contains("four digits"));
  CHECK_THAT(mend_of_times("12,5"), Contains("count from the start"));
  CHECK_THAT(mend_of_times("10:02"), Contains("needs its date"));
  CHECK_THAT(mend_of_times("2026-06-14"), Contains("needs a time of day"));
  CHECK(mend_of_times("ERR").empty());
  CHECK_THAT(mend_of_times("1899-06-14 10:02:03"), Contains("between 1900 and 2037"));
}
