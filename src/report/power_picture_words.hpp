#pragma once

#include <string>

#include "report/power_picture_data.hpp"

namespace hailwright::detail {

/// What a picture of a stage is called in ids: "after", "after-series-1", "later".
std::string stage_id(StageId stage);

/// What the picture of the power says, in the decimals of the judgement.
class PowerWords {
public:
  PowerWords(const Test& test, const PowerResult& power, const PowerView& view)
      : test_(test), power_(power), view_(view) {}

  [[nodiscard]] std::string title() const;
  [[nodiscard]] std::string description() const;
  [[nodiscard]] std::string axis() const;
  /// A value of the axis: "99.3 %", "61.2 W".
  [[nodiscard]] std::string value(double shown) const;
  // Beside the levels.
  [[nodiscard]] std::string from_level() const;
  [[nodiscard]] std::string limit_level() const;
  [[nodiscard]] std::string to_level() const;
  // In the legend.
  [[nodiscard]] std::string readings(bool one_by_one) const;
  [[nodiscard]] std::string apart() const;
  [[nodiscard]] std::string skipped(std::size_t beyond_axis) const;
  [[nodiscard]] std::string from_mean() const;
  [[nodiscard]] std::string to_mean() const;
  [[nodiscard]] std::string limit() const;
  [[nodiscard]] std::string notes() const;

private:
  [[nodiscard]] std::string counted_readings(std::size_t n) const;
  [[nodiscard]] std::string from_name() const;
  [[nodiscard]] std::string to_name() const;

  const Test& test_;
  const PowerResult& power_;
  const PowerView& view_;
};

}  // namespace hailwright::detail
