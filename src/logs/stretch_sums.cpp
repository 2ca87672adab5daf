#include "logs/stretch_sums.hpp"

namespace hailwright::detail {

namespace {

void append_series(SeriesSums& into, const SeriesSums& next, bool neighbours,
                   std::int64_t longest_gap_us) {
  if (neighbours)
    into.append(next, longest_gap_us);
  else
    into.append_apart(next);
}

}  // namespace

StretchSums StretchSums::of(const StretchRows& rows, std::size_t begin, std::size_t end,
                            std::int64_t longest_gap_us) {
  const auto total = [&](LogRole role) {
    const auto& values = rows.column(role);
    return values.empty() ? ColumnTotal{} : ColumnTotal::of(values, begin, end);
  };
  const auto series = [&](const std::vector<double>& values) {
    return values.empty() ? SeriesSums{}
                          : SeriesSums::of(rows.block.time_us, values, begin, end, longest_gap_us);
  };
  StretchSums sums;
  sums.power = total(LogRole::power);
  sums.irradiance = total(LogRole::irradiance);
  sums.temperature = total(LogRole::temperature);
  sums.power_beside = total(LogRole::power_beside);
  sums.temperature_beside = total(LogRole::temperature_beside);
  sums.power_series = series(rows.column(LogRole::power));
  sums.normalised = series(rows.normalised);
  sums.normalised_beside = series(rows.normalised_beside);
  return sums;
}

void StretchSums::append(const StretchSums& next, bool neighbours, std::int64_t longest_gap_us) {
  power.append(next.power);
  irradiance.append(next.irradiance);
  temperature.append(next.temperature);
  power_beside.append(next.power_beside);
  temperature_beside.append(next.temperature_beside);
  append_series(power_series, next.power_series, neighbours, longest_gap_us);
  append_series(normalised, next.normalised, neighbours, longest_gap_us);
  append_series(normalised_beside, next.normalised_beside, neighbours, longest_gap_us);
}

void StretchSums::write_to(LogStretch& stretch) const {
  stretch.power = power.sums();
  stretch.irradiance = irradiance.sums();
  stretch.temperature = temperature.sums();
  stretch.power_beside = power_beside.sums();
  stretch.temperature_beside = temperature_beside.sums();
  stretch.power_series = power_series.result();
  if (normalised.count > 0) stretch.normalised = normalised.result();
  if (normalised_beside.count > 0) stretch.normalised_beside = normalised_beside.result();
}

}  // namespace hailwright::detail
