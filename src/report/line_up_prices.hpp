#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "hailwright/evaluate/line_up.hpp"
#include "hailwright/report/data_table.hpp"
#include "hailwright/report/workbook.hpp"

namespace hailwright::detail {

/// Titles of the columns of the sheet of prices.
namespace price_column {
inline constexpr const char* record = "record";
inline constexpr const char* lowest = "lowest price";
inline constexpr const char* price = "price";
inline constexpr const char* highest = "highest price";
inline constexpr const char* currency = "currency";
inline constexpr const char* power = "measured power";
inline constexpr const char* relative_u = "relative u of the power";
inline constexpr const char* rated = "rated power";
inline constexpr const char* area = "area";
inline constexpr const char* weight = "weight";
inline constexpr const char* lowest_per_watt = "lowest price per measured watt";
inline constexpr const char* per_watt = "price per measured watt";
inline constexpr const char* u_per_watt = "u of the price per measured watt";
inline constexpr const char* highest_per_watt = "highest price per measured watt";
inline constexpr const char* lowest_per_rated = "lowest price per rated watt";
inline constexpr const char* per_rated = "price per rated watt";
inline constexpr const char* highest_per_rated = "highest price per rated watt";
inline constexpr const char* share_of_rated = "share of the rated power";
inline constexpr const char* per_area = "power per area";
inline constexpr const char* per_mass = "power per mass";
}  // namespace price_column

/// A sheet with a row a panel: what a reader may change, and what follows from it by formulas.
class PriceSheet {
public:
  explicit PriceSheet(const std::vector<const LineUpEntry*>& entries);

  [[nodiscard]] Sheet sheet() const { return sheet_; }
  /// A formula for a cell of another sheet that shows what stands here; nothing where that is
  /// blank.
  [[nodiscard]] std::string there(std::string_view title, std::size_t row) const;
  /// The same for its standard uncertainty, by the relative one of the power.
  [[nodiscard]] std::string u_there(std::string_view title, std::size_t row) const;

private:
  /// "$B$2"
  static std::string here(std::string_view title, std::size_t row);
  [[nodiscard]] SheetCell& at(std::string_view title, std::size_t row);
  void quotient(const char* title, const char* above, const char* below, std::size_t row,
                double times = 1.0);
  void u_of_price(std::size_t row);

  Sheet sheet_;
};

}  // namespace hailwright::detail
