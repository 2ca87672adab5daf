#include "logs/log_header.hpp"

#include <fstream>
#include <string>
#include <string_view>

#include "support/catch.hpp"

using namespace hailwright;
using namespace hailwright::detail;

namespace {

struct Case {
  std::string_view header, name, unit;
  bool apart;
};

}  // namespace

TEST_CASE("log headers: every form of name and unit") {
  for (const Case& c : {
           Case{"power W", "power", "W", false},
           Case{"power [W]", "power", "W", true},
           Case{"power (W)", "power", "W", true},
           Case{"power(W)", "power", "W", true},
           Case{"Power_W", "Power", "W", false},
           Case{"power/W", "power", "W", false},
           Case{"Power, kW", "Power", "kW", false},
           Case{"Power in W", "Power", "W", false},
           Case{"Power [W] mean", "Power mean", "W", true},
           Case{"Power (DC) [W]", "Power (DC)", "W", true},
           Case{"Power [W] (DC)", "Power (DC)", "W", true},
           Case{"irradiance W/m2", "irradiance", "W/m2", false},
           Case{"G (W/m^2)", "G", "W/m^2", true},
           Case{"irradiance W m-2", "irradiance", "W m-2", false},
           Case{"Irradiance_Wm-2", "Irradiance", "Wm-2", false},
           Case{"temperature °C", "temperature", "°C", false},
           Case{"temperature [deg C]", "temperature", "deg C", true},
           Case{"temp_c", "temp", "c", false},
           Case{"irradiance_w_m2", "irradiance", "w_m2", false},
           Case{"energy_kwh", "energy", "kwh", false},
           // In a header with capitals a small letter is no unit.
           Case{"Temp_c", "Temp_c", "", false},
           Case{"Phase a", "Phase a", "", false},
           Case{"panel A", "panel", "A", false},
           Case{"power", "power", "", false},
           Case{"power (mean)", "power (mean)", "", false},
           Case{"power [MW]", "power [MW]", "", false},
           Case{"W", "W", "", false},
           Case{"", "", "", false},
           Case{"wind m/s", "wind m/s", "", false},
           Case{"[", "[", "", false},
           Case{"])([", "])([", "", false},
       }) {
    CAPTURE(c.header);
    const LogHeader header = read_log_header(c.header);
    CHECK(header.whole == c.header);
    CHECK(header.name == c.name);
    CHECK(header.unit == c.unit);
    CHECK(header.unit_apart == c.apart);
  }
}

TEST_CASE("log headers: a line of units below") {
  CHECK(read_log_header("Power", "W").unit == "W");
  CHECK(read_log_header("Power", "W").unit_apart);
  CHECK(read_log_header("Power", "[kW]").unit == "kW");
  CHECK(read_log_header("Power W", "").unit == "W");
  CHECK(read_log_header("Time", "yyyy-mm-dd").unit.empty());
}

TEST_CASE("log headers: spellings of units") {
  struct Spelling {
    std::string_view written;
    Measure measure;
    std::string_view symbol;
  };
  for (const Spelling& s : {
           Spelling{"W", Measure::power, "W"},
           Spelling{"kW", Measure::power, "kW"},
           Spelling{"Watts", Measure::power, "W"},
           Spelling{"w", Measure::power, "W"},
           Spelling{"mV", Measure::voltage, "mV"},
           Spelling{"Volt", Measure::voltage, "V"},
           Spelling{"mA", Measure::current, "mA"},
           Spelling{"ma", Measure::current, "mA"},
           Spelling{"W/m2", Measure::irradiance, "W/m2"},
           Spelling{"W/m^2", Measure::irradiance, "W/m2"},
           Spelling{"W / m²", Measure::irradiance, "W/m2"},
           Spelling{"Wm-2", Measure::irradiance, "W/m2"},
           Spelling{"W m-2", Measure::irradiance, "W/m2"},
           Spelling{"W m^-2", Measure::irradiance, "W/m2"},
           Spelling{"W·m⁻²", Measure::irradiance, "W/m2"},
           Spelling{"C", Measure::temperature, "degC"},
           Spelling{"degC", Measure::temperature, "degC"},
           Spelling{"deg C", Measure::temperature, "degC"},
           Spelling{"ºC", Measure::temperature, "degC"},
           Spelling{"°F", Measure::temperature, "°F"},
           Spelling{"K", Measure::temperature, "K"},
           Spelling{"Wh", Measure::energy, "Wh"},
           Spelling{"kWh", Measure::energy, "kWh"},
           Spelling{"Ws", Measure::energy, "J"},
           Spelling{"mW", Measure::power, "mW"},
           Spelling{"kW/m2", Measure::irradiance, "kW/m2"},
           Spelling{"kW m⁻²", Measure::irradiance, "kW/m2"},
           Spelling{"mW/cm²", Measure::irradiance, "mW/cm2"},
       }) {
    CAPTURE(s.written);
    const Unit* unit = logger_unit(s.written, s.measure);
    REQUIRE(unit != nullptr);
    CHECK(unit->symbol == s.symbol);
    CHECK(is_logger_unit(s.written));
  }
  for (const std::string_view none : {"", "MW", "mw", "W/cm2", "KW", "m", "m/s", "Ah", "VA", "%"}) {
    CAPTURE(none);
    CHECK_FALSE(is_logger_unit(none));
  }
  CHECK(logger_unit("W", Measure::irradiance) == nullptr);
}

// By the prefixes of the SI (BIPM, SI brochure, table 7): 1 mW/cm2 = 1e-3 W / 1e-4 m2.
TEST_CASE("log headers: units that only loggers use have their size") {
  CHECK(logger_unit("mW", Measure::power)->factor == 0.001);
  CHECK(logger_unit("kW/m2", Measure::irradiance)->factor == 1000.0);
  CHECK(logger_unit("mW/cm2", Measure::irradiance)->factor == 10.0);
  CHECK(only_loggers_use(*logger_unit("mW", Measure::power)));
  CHECK_FALSE(only_loggers_use(*logger_unit("kW", Measure::power)));
}

TEST_CASE("log headers: what stands where a unit would and is none that is read") {
  CHECK(read_log_header("power [MW]").not_read == "MW");
  CHECK(read_log_header("power MW").not_read == "MW");
  CHECK(read_log_header("power (mean)").not_read == "mean");
  CHECK(read_log_header("Power", "[MW]").not_read == "MW");
  CHECK(read_log_header("power [W]").not_read.empty());
  CHECK(read_log_header("power").not_read.empty());
  CHECK(read_log_header("Power out").not_read.empty());
  CHECK(read_log_header("])([").not_read.empty());
}

TEST_CASE("log headers: every spelling on the page of units is read") {
  std::ifstream page(std::string(HAILWRIGHT_SOURCE_DIR) + "/docs/units.md");
  REQUIRE(page.good());
  int spellings = 0;
  std::string line;
  bool in_table = false;
  while (std::getline(page, line)) {
    if (line.starts_with("| unit | also written |")) in_table = true;
    if (line.empty()) in_table = false;
    if (!in_table) continue;
    for (std::size_t at = line.find('`'); at != std::string::npos;) {
      const std::size_t end = line.find('`', at + 1);
      REQUIRE(end != std::string::npos);
      CAPTURE(line.substr(at + 1, end - at - 1));
      CHECK(is_logger_unit(line.substr(at + 1, end - at - 1)));
      ++spellings;
      at = line.find('`', end + 1);
    }
  }
  CHECK(spellings > 30);
}
