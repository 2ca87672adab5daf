// Table of a write-up: rounds without a shade and in it.
#include "report/report_tables.hpp"

namespace hailwright {

namespace {

void add_rounds(DataTable& table, const Record& record, const ShadeTrial& trial,
                const ShadingResult& result) {
  for (std::size_t i = 0; i < trial.rounds.size(); ++i) {
    const ShadeRound& r = trial.rounds[i];
    table.rows.push_back(
        {record.title, trial.shade, trial.after ? "after" : "before", static_cast<double>(i + 1),
         r.free.si(), r.shaded.si(), r.sun_free.si(), r.sun_shaded.si(), typed_celsius(r.back_free),
         typed_celsius(r.back_shaded), 100.0 * (1.0 - result.rounds_left.at(i).si())});
  }
}

}  // namespace

DataTable shading_table(const WriteUp& write_up) {
  DataTable table{"shading",
                  "Read without a shade and in it. The loss is that of the normalised power",
                  {{"record", ""},
                   {"shade", ""},
                   {"stage", ""},
                   {"round", "", 0},
                   {"power free", "W", 2},
                   {"power in the shade", "W", 2},
                   {"irradiance free", "W/m2", 0},
                   {"irradiance in the shade", "W/m2", 0},
                   {"back free", "degC", 1},
                   {"back in the shade", "degC", 1},
                   {"loss", "%", 2}},
                  {}};
  for (const Judged& judged : write_up.judged) {
    for (const ShadingResult& result : judged.assessment->shading) {
      const Record& record = judged.test->record;
      add_rounds(table, record, record.shading.at(result.trial), result);
    }
  }
  return table;
}

}  // namespace hailwright
