#include "logs/log_roles.hpp"

#include <string>
#include <string_view>
#include <vector>

#include "support/catch.hpp"
#include "support/log_beginning.hpp"

using namespace hailwright;
using namespace hailwright::detail;
using test::LogBeginning;

namespace {

/// "time=Time power=P (W)[W]" of a header with one row of the first cell and numbers.
std::string roles_of(const std::string& header, const std::string& row) {
  LogBeginning log(header + '\n' + row + '\n' + row + '\n');
  HeadNotes notes(log.file, log.sources, log.notes);
  const auto layout = find_layout(log.text, std::nullopt, notes);
  REQUIRE(layout);
  std::string all;
  for (const RoleCandidate& each : role_candidates(*layout)) {
    all += (all.empty() ? "" : " ") + std::string(word_of(each.role)) + '=' +
           layout->headers[each.column].whole;
    if (each.unit != nullptr) all += '[' + std::string(each.unit->symbol) + ']';
  }
  return all;
}

std::string role_of(const std::string& header) {
  const std::string all = roles_of("time;" + header, "2026-06-14 10:02;1");
  return all.substr(std::string_view("time=time").size());
}

}  // namespace

TEST_CASE("log roles: by names and units") {
  CHECK(role_of("power W") == " power=power W[W]");
  CHECK(role_of("P (kW)") == " power=P (kW)[kW]");
  CHECK(role_of("X (W)") == " power=X (W)[W]");
  CHECK(role_of("Leistung W") == " power=Leistung W[W]");
  CHECK(role_of("U [V]") == " voltage=U [V][V]");
  CHECK(role_of("Spannung V") == " voltage=Spannung V[V]");
  CHECK(role_of("Strom mA") == " current=Strom mA[mA]");
  CHECK(role_of("Prąd [A]") == " current=Prąd [A][A]");
  CHECK(role_of("Irradiance W/m^2") == " irradiance=Irradiance W/m^2[W/m2]");
  CHECK(role_of("Éclairement (W/m²)") == " irradiance=Éclairement (W/m²)[W/m2]");
  CHECK(role_of("Temp °C") == " temperature=Temp °C[°C]");
  CHECK(role_of("Panel (degC)") == " temperature=Panel (degC)[degC]");
  CHECK(role_of("temp_c") == " temperature=temp_c[degC]");
  CHECK(role_of("Energy total kWh") == " energy=Energy total kWh[kWh]");
  CHECK(role_of("power beside W") == " power_beside=power beside W[W]");
  CHECK(role_of("temperature_beside degC") == " temperature_beside=temperature_beside degC[degC]");
  CHECK(role_of("marker") == " marker=marker");
  CHECK(role_of("power") == " power=power");
}

TEST_CASE("log roles: what is not of the panel is left out") {
  for (const std::string header :
       {"battery voltage V", "AC power W", "ambient temp °C", "Power max W", "Irradiance std W/m2",
        "panel A", "RH %", "wind speed m/s", "X °C", "Power factor", "load current A", "count"}) {
    CAPTURE(header);
    CHECK(role_of(header).empty());
  }
  // The unit is of another measure than the name.
  CHECK(role_of("power [°C]").empty());
}

TEST_CASE("log roles: the role's own word sends others away") {
  CHECK(roles_of("time;power W;P2 W", "2026-06-14 10:02;1;2") == "time=time power=power W[W]");
  CHECK(roles_of("time;P1 W;P2 W", "2026-06-14 10:02;1;2") ==
        "time=time power=P1 W[W] power=P2 W[W]");
}

TEST_CASE("log roles: times by their cells") {
  CHECK(roles_of("When;P W", "14.06.2026 10:02:03;1") == "time=When power=P W[W]");
  CHECK(roles_of("Datum;Uhrzeit;P W", "14.06.2026;10:02:03;1") ==
        "date=Datum clock=Uhrzeit power=P W[W]");
  CHECK(roles_of("ts;P W", "1781431323;1") == "time=ts power=P W[W]");
  CHECK(roles_of("epoch;P W", "1781431323250;1") == "time=epoch power=P W[W]");
  CHECK(roles_of("serial;P W", "1781431323;1") == "power=P W[W]");
  CHECK(roles_of("time;P W", "12.5;1") == "power=P W[W]");
}
