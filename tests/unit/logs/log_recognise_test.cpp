#include "hailwright/logs/log_recognise.hpp"

#include <random>
#include <string>
#include <vector>

#include "support/catch.hpp"
#include "support/log_beginning.hpp"

using namespace hailwright;
using test::LogBeginning;

namespace {

std::optional<LogShape> shape_of(LogBeginning& log, const LogFormat& stated) {
  return recognise_log(log.text, stated, log.file, log.sources, log.notes);
}

LogFormat in_zone(std::string zone) {
  LogFormat format;
  format.zone = std::move(zone);
  return format;
}

const std::string plain = "time,power W,irradiance W/m2,temperature degC,energy Wh\n"
                          "2026-06-01T00:00:00,79.123,812.34,45.12,12345.678\n"
                          "2026-06-01T00:00:01,79.124,812.35,45.13,12345.700\n"
                          "2026-06-01T00:00:02,79.125,812.36,45.14,12345.722\n";

}  // namespace

TEST_CASE("recognise log: a plain file") {
  LogBeginning log(plain);
  const auto shape = shape_of(log, in_zone("+02:00"));
  REQUIRE(shape);
  CHECK(log.notes.empty());
  CHECK(shape->separator == ',');
  CHECK(shape->decimal == '.');
  CHECK(shape->header_line == 1);
  CHECK(shape->first_row_line == 2);
  CHECK(shape->headers.size() == 5);
  CHECK(shape->used.size() == 5);
  REQUIRE(shape->column(LogRole::energy) != nullptr);
  CHECK(shape->column(LogRole::energy)->unit.factor == 3600.0);
  CHECK(shape->stamp.kind == StampForm::Kind::calendar);
  CHECK_FALSE(shape->stamp.own_offset);
  CHECK(shape->usual_step_s == 1.0);
}

TEST_CASE("recognise log: a file of a German sheet") {
  LogBeginning log("\xEF\xBB\xBF"
                   "Messung vom Sommer\r\n\r\nDatum;Uhrzeit;Leistung [W];Einstrahlung [W/m²]\r\n"
                   "14.06.2026;10:02:00;79,1;812,3\r\n14.06.2026;10:03:00;79,2;812\r\n");
  const auto shape = shape_of(log, in_zone("Europe/Berlin"));
  REQUIRE(shape);
  CHECK(shape->separator == ';');
  CHECK(shape->decimal == ',');
  CHECK(shape->header_line == 3);
  REQUIRE(shape->column(LogRole::clock) != nullptr);
  CHECK(shape->column(LogRole::clock)->place == 1);
  CHECK(shape->stamp.dates == DateOrder::day_first);
  CHECK(shape->stamp.date_mark == '.');
  CHECK(shape->usual_step_s == 60.0);
}

TEST_CASE("recognise log: stamps that tell their offset need no zone") {
  LogBeginning offset("time,power W\n2026-06-14T10:02:03+02:00,1\n2026-06-14T10:02:04+02:00,2\n");
  const auto shape = shape_of(offset, {});
  REQUIRE(shape);
  CHECK(shape->stamp.own_offset);
  LogBeginning unix_time("time,power W\n1781431323,1\n1781431324,2\n");
  const auto seconds = shape_of(unix_time, {});
  REQUIRE(seconds);
  CHECK(seconds->stamp.kind == StampForm::Kind::unix_seconds);
}

TEST_CASE("recognise log: zones") {
  LogBeginning none(plain);
  LogFormat stated;
  stated.origin = {none.file, 0, 0, 0};
  CHECK_FALSE(shape_of(none, stated));
  CHECK(none.only() == "L05 2:1");  // Found by review: it had no place
  CHECK_THAT(none.messages(), Contains("--zone +02:00"));
  CHECK_THAT(none.messages(), Contains("log.csv:2:1"));
  LogBeginning unknown(plain);
  CHECK_FALSE(shape_of(unknown, in_zone("Europe/Berln")));
  CHECK(unknown.only() == "L31 0:0");
  CHECK_THAT(unknown.messages(), Contains("write Europe/Berlin"));
}

TEST_CASE("recognise log: several mistakes at once") {
  LogBeginning log("time;power W\n06/07/2026 10:02;79,1\n06/07/2026 10:03;79.2\n");
  CHECK_FALSE(shape_of(log, {}));
  REQUIRE(log.notes.items().size() == 2);
  CHECK(log.notes.items()[0].code == "L07");
  CHECK(log.notes.items()[1].code == "L06");
}

TEST_CASE("recognise log: the decimal mark is that of the columns read") {
  // A version number with a point is no mixed mark when nobody reads it.
  LogBeginning log("time;power W;firmware\n2026-06-14 10:02;79,1;1.2\n2026-06-14 10:03;79,2;1.2\n");
  const auto shape = shape_of(log, in_zone("UTC"));
  REQUIRE(shape);
  CHECK(shape->decimal == ',');
}

TEST_CASE("recognise log: damaged beginnings never crash and never give a half shape") {
  std::mt19937 random(9);  // NOLINT(cert-msc51-cpp): the same bytes in every run
  const std::vector<std::string> seeds{
      plain, "Zeit;Leistung [W];G [W/m²]\n14.06.2026 10:02;79,1;812\n14.06.2026 10:03;1;2\n",
      "a\tb\n\"1\"\t2\n\"x\"\t\"y\n"};
  int shapes = 0;
  for (int i = 0; i < 3000; ++i) {
    std::string text = seeds[random() % seeds.size()];
    const auto changes = random() % 12;
    for (std::size_t k = 0; k < changes; ++k)
      text[random() % text.size()] = static_cast<char>(random() % 256);
    if (random() % 4 == 0) text.resize(random() % text.size());
    LogBeginning log(text);
    const auto shape = shape_of(log, in_zone("UTC"));
    CHECK(shape.has_value() != log.notes.has_errors());
    (void)propose_format(text, log.file, log.sources, log.notes);
    if (!shape) continue;
    ++shapes;
    for (const LogColumn& column : shape->used)
      CHECK(column.place < shape->headers.size());
    CHECK((shape->column(LogRole::time) != nullptr || shape->column(LogRole::clock) != nullptr));
  }
  CHECK(shapes > 100);
}
