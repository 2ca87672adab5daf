#pragma once

#include <nlohmann/json.hpp>

#include <cstdio>
#include <string>

#include "cli/command.hpp"
#include "support/catch.hpp"

namespace hailwright::testing {

/// "2026-06-14T10:00:00" and so many seconds.
inline std::string stamp(int seconds) {
  char text[32];
  std::snprintf(text, sizeof text, "2026-06-14T%02d:%02d:%02d", 10 + seconds / 3600,
                seconds / 60 % 60, seconds % 60);
  return text;
}

/// Of those rows.
inline constexpr const char* header = "time,power [W],irradiance [W/m2],temperature [degC]\n";

/// A row a second under a steady sun: 80 W while the load is on.
inline std::string rows(int from_s, int to_s, double power_w) {
  std::string text;
  for (int s = from_s; s < to_s; ++s) {
    char row[64];
    std::snprintf(row, sizeof row, "%s,%.1f,800.0,45.0\n", stamp(s).c_str(), power_w);
    text += row;
  }
  return text;
}

/// Of those stamps.
inline constexpr const char* zone = " --zone +02:00 ";

/// The JSON of a run that did what was asked.
inline nlohmann::json parsed(const Finished& f) {
  CAPTURE(f.err);
  REQUIRE(f.exit_code == 0);
  return nlohmann::json::parse(f.out);
}

}  // namespace hailwright::testing
