#include "hailwright/report/compose_readings.hpp"
#include "report/log_picture_data.hpp"
#include "report/stretch_table.hpp"

namespace hailwright {

DataTable readings_table(const ReadingsAnswer& a) {
  const LogStretch& whole = a.findings.whole;
  const std::string& zone = a.stated.zone;
  DataTable table{"readings",
                  "The log and its stretches, intervals at 95 %",
                  {{"stretch", "", -1}},
                  {{"whole log"}}};
  std::vector<StretchRow> rows{{whole, a.results.whole, zone}};
  for (std::size_t i = 0; i < a.findings.stretches.size(); ++i) {
    table.rows.push_back({detail::stretch_name(a.findings, i)});
    rows.push_back({a.findings.stretches[i], a.results.stretches.at(i), zone});
  }
  return stretch_table(std::move(table), rows, StretchTimes::second);
}

}  // namespace hailwright
