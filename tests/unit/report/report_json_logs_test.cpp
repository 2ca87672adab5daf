#include <algorithm>
#include <nlohmann/json.hpp>

#include "hailwright/report/write_up.hpp"
#include "report/log_use_sentences.hpp"
#include "support/catch.hpp"
#include "support/file_bytes.hpp"
#include "support/json_report.hpp"
#include "support/logged_test.hpp"
#include "support/test_builder.hpp"
#include "support/written_up.hpp"

using namespace hailwright;
using namespace hailwright::testing;
using Json = nlohmann::ordered_json;

TEST_CASE("report json logs: none where the record has none") {
  const Json record = json_of(WrittenUp(TestBuilder()).write_up).at("records")[0];
  CHECK(record.at("logs") == Json::array());
  CHECK(record.at("sessions") == Json::array());
}

TEST_CASE("report json logs: what was read, by what rules, and what it came to") {
  const WrittenUp written(logged_test());
  const Json report = json_of(written.write_up);
  CHECK(report.at("schema_version") == 3);
  const Json log = report.at("records")[0].at("logs").at(0);
  CHECK(log.at("files") == Json::array({"day.csv"}));
  CHECK(log.at("under") == "before");
  CHECK(log.at("read").at("unreadable") == 2);
  CHECK(log.at("rules").at("cut").at("by") == "times");
  CHECK(log.at("set_ups") == Json::array({"before 1", "before 2"}));
  CHECK(log.at("left_out").at(0).at("readings") == 2);
  CHECK(log.at("left_out").at(0).at("set_up") == "before 1");
  CHECK(log.at("sentences").at(0) ==
        setups_sentence(written.test().record.logs[0], written.test().record));
  REQUIRE(log.at("stretches").size() == 2);
  BitByBit bits;
  bits.number(log.at("stretches")[0].at("energy"),
              written.assessment().logs[0].stretches[0].energy->estimate.value.si());
  CHECK(bits.differing == 0);
}

TEST_CASE("report json logs: sessions with their numbers and known sources") {
  Test test = logged_test();
  test.protocol.tools.meter.error.reset();
  const WrittenUp written(test);
  const Json report = json_of(written.write_up);
  const Json log = report.at("records")[0].at("sessions").at(0);
  CHECK(log.at("under") == "sessions");
  const StretchNumbers& n = written.assessment().sessions[0].stretches[0];
  BitByBit bits;
  bits.number(log.at("stretches")[0].at("mean_power"), n.mean_power->estimate.value.si());
  bits.same(log.at("stretches")[0].at("ratio").at("half_width_95"), n.ratio->half_width().si());
  CHECK(bits.differing == 0);
  CHECK(log.at("stretches")[1].at("energy").is_null());
  CHECK_FALSE(log.at("assumed").empty());
  std::vector<std::string> known;
  for (const Json& source : report.at("sources"))
    known.push_back(source.at("id"));
  CHECK(log.at("sources").size() == log.at("assumed").size() + 2);
  for (const Json& id : log.at("sources"))
    CHECK(std::find(known.begin(), known.end(), id.get<std::string>()) != known.end());
}

TEST_CASE("report json logs: the schema names the keys that are written") {
  const WrittenUp written(logged_test());
  const Json record = json_of(written.write_up).at("records")[0];
  const auto& defs = report_schema().at("$defs");
  const auto same_keys = [](const Json& written_one, const nlohmann::json& schema) {
    for (const auto& [key, value] : written_one.items()) {
      CAPTURE(key);
      CHECK(schema.at("properties").contains(key));
    }
    for (const auto& key : schema.at("required"))
      CHECK(written_one.contains(key.get<std::string>()));
  };
  same_keys(record.at("logs")[0], defs.at("log"));
  same_keys(record.at("sessions")[0], defs.at("session_log"));
  const Json& stretch = record.at("logs")[0].at("stretches")[0];
  same_keys(stretch, defs.at("log_stretch"));
  same_keys(record.at("sessions")[0].at("stretches")[0].at("counter"), defs.at("log_counter"));
}

TEST_CASE("report json logs: a log has the form that readings have") {
  const nlohmann::json readings =
      nlohmann::json::parse(tree_file("docs/schemas/readings.schema.json"));
  for (const auto& [name, definition] : readings.at("$defs").items()) {
    CAPTURE(name);
    std::string told = definition.dump();
    for (std::size_t at = 0; (at = told.find("#/$defs/", at)) != std::string::npos;)
      told.insert(at += 8, "log_");
    CHECK((report_schema().at("$defs").at("log_" + name) == nlohmann::json::parse(told)));
  }
}
