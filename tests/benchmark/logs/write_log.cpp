// Writes an invented log at 1 Hz to standard output: write_log ROWS [SEED]
//
// Time in UTC from 2026-06-01, power, irradiance, temperature and the counter of energy of a panel
// of 80 W under a sky with passing clouds, night included. The same seed gives the same bytes.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <iterator>

#include "hailwright/metrology/random.hpp"

namespace {

constexpr double pi = 3.14159265358979323846;
constexpr int day_s = 86'400;

/// Sun and panel from second to second.
class Sky {
public:
  explicit Sky(std::uint64_t seed) : random_(seed) {}

  void step(int second_of_day) {
    if (random_.uniform() < (cloudy_ ? 1.0 / 120.0 : 1.0 / 400.0)) cloudy_ = !cloudy_;
    shade_ += 0.2 * ((cloudy_ ? 0.35 : 1.0) - shade_);
    const double height = std::sin(2.0 * pi * (second_of_day - day_s / 4.0) / day_s);
    irradiance = std::max(0.0, 1050.0 * height * shade_);
    const double warmest = 18.0 + 0.035 * irradiance;
    temperature += (warmest - temperature) / 300.0;
    const double clean = 0.08 * irradiance * (1.0 - 0.0035 * (temperature - 25.0));
    power = clean > 0.5 ? std::max(0.0, clean * (1.0 + 0.002 * random_.normal())) : 0.0;
    energy_wh += power / 3600.0;
  }

  double irradiance = 0.0, temperature = 18.0, power = 0.0, energy_wh = 0.0;

private:
  hailwright::RandomStream random_;
  bool cloudy_ = false;
  double shade_ = 1.0;
};

struct Date {
  int month = 6, day = 1;
  void next() {
    constexpr int lengths[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    if (++day <= lengths[month - 1]) return;
    day = 1;
    ++month;
  }
};

}  // namespace

int main(int argc, char** argv) {
  const long rows = argc > 1 ? std::atol(argv[1]) : 0;
  constexpr long most = 200L * day_s;  // up to the year's end
  if (rows < 1 || rows > most) {
    std::fputs("usage: write_log ROWS [SEED], at most 200 days of seconds\n", stderr);
    return 2;
  }
  Sky sky(argc > 2 ? std::strtoull(argv[2], nullptr, 10) : 1);
  Date date;
  fmt::memory_buffer text;
  fmt::format_to(std::back_inserter(text),
                 "time,power W,irradiance W/m2,temperature degC,energy Wh\n");
  for (long row = 0; row < rows; ++row) {
    const int second = static_cast<int>(row % day_s);
    if (row > 0 && second == 0) date.next();
    sky.step(second);
    fmt::format_to(std::back_inserter(text),
                   "2026-{:02}-{:02}T{:02}:{:02}:{:02},{:.3f},{:.2f},{:.2f},{:.3f}\n", date.month,
                   date.day, second / 3600, second / 60 % 60, second % 60, sky.power,
                   sky.irradiance, sky.temperature, sky.energy_wh);
    if (text.size() > (1U << 16U) || row + 1 == rows) {
      if (std::fwrite(text.data(), 1, text.size(), stdout) != text.size()) return 1;
      text.clear();
    }
  }
  return std::fflush(stdout) == 0 ? 0 : 1;
}
