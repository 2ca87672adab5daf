#include <algorithm>
#include <nlohmann/json.hpp>

#include "hailwright/report/render.hpp"
#include "report/report_sections.hpp"
#include "report/report_tables.hpp"
#include "support/catch.hpp"
#include "support/json_report.hpp"
#include "support/table_cells.hpp"
#include "support/written_up.hpp"

using namespace hailwright;
using namespace hailwright::testing;
using Json = nlohmann::ordered_json;

namespace {

/// The record of the demo with shades and sessions by meter.
WrittenUp written_side() {
  WrittenUp written;
  written.read("protocols/demo/side/rigid-a-side.yaml");
  return written;
}

}  // namespace

TEST_CASE("report side measurements: a section each, and none where nothing was measured") {
  const WrittenUp written = written_side();
  Document out;
  append_side_measurements(out, ReportPart(written.write_up, 0));
  const std::string text = render_markdown(out);
  CHECK_THAT(text, Contains("In partial shade") && Contains("Sessions by meter") &&
                       Contains("Nothing is judged by") && Contains("shading.csv") &&
                       Contains("meter-sessions.csv"));
  Document none;
  const WrittenUp plain(TestBuilder{});
  append_side_measurements(none, ReportPart(plain.write_up, 0));
  CHECK(none.blocks.empty());
}

TEST_CASE("report side measurements: a shaded panel has its caution") {
  const WrittenUp written = written_side();
  const auto& cautions = written.assessment().cautions;
  CHECK(std::any_of(cautions.begin(), cautions.end(),
                    [](const Caution* c) { return c->id == "shaded_part"; }));
}

TEST_CASE("report side measurements: tables have a row a round and a row a session") {
  const WrittenUp written = written_side();
  const DataTable shading = shading_table(written.write_up);
  REQUIRE(shading.rows.size() == 4);
  for (const auto& row : shading.rows)
    CHECK(row.size() == shading.columns.size());
  CHECK(number_of(shading, "power in the shade", 0) == 41.1);
  CHECK_THAT(number_of(shading, "loss", 3), WithinAbs(100.0, 1e-12));
  const DataTable sessions = meter_sessions_table(written.write_up);
  REQUIRE(sessions.rows.size() == 2);
  for (const auto& row : sessions.rows)
    CHECK(row.size() == sessions.columns.size());
  CHECK(words_of(sessions, "session", 0) == "morning");
  CHECK_THAT(number_of(sessions, "energy", 0), WithinRel(212.4, 1e-12));
  CHECK(is_blank(sessions, "normalised power", 1));
}

TEST_CASE("report side measurements: the numbers for machines are those of the assessment") {
  const WrittenUp written = written_side();
  const Json record = json_of(written.write_up).at("records")[0];
  const Json& shades = record.at("shading");
  REQUIRE(shades.size() == 3);
  BitByBit bits;
  const ShadingResult& first = written.assessment().shading[0];
  bits.number(shades[0].at("power").at("loss"), first.loss.si());
  bits.number(shades[0].at("power").at("low"), first.low.si());
  bits.number(shades[1].at("bypass").at("drop"),
              written.assessment().shading[1].bypass->drop.value.si());
  CHECK(shades[0].at("bypass").is_null());
  CHECK(shades[1].at("power").is_null());
  CHECK(shades[1].at("bypass").at("word") == "as expected");
  CHECK(shades[2].at("power").at("high").at("value") == 1.0);
  const Json& sessions = record.at("meter_sessions");
  REQUIRE(sessions.size() == 2);
  const MeterSessionResult& morning = written.assessment().energy[0];
  bits.number(sessions[0].at("mean_power"), morning.mean_power.estimate.value.si());
  bits.number(sessions[0].at("beside").at("ratio"), morning.ratio->estimate.value.si());
  CHECK(sessions[1].at("normalised").is_null());
  CHECK(sessions[1].at("beside").is_null());
  CHECK(bits.differing == 0);
}
