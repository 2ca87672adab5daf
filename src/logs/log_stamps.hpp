#pragma once

#include <cstddef>
#include <optional>

#include "logs/log_layout.hpp"
#include "logs/log_stamp.hpp"

namespace hailwright::detail {

/// Where in a row the time stands: in one column, or the date in one and the clock in another.
struct StampColumns {
  std::size_t first = 0;  ///< of date and time of day, or of the date
  std::optional<std::size_t> clock;
};

/// The form of the stamps in a log's beginning. Nothing, and an error, when they are no stamps, or
/// when day and month could change places and `dates` does not say.
std::optional<StampForm> find_stamp_form(const LogLayout& layout, const StampColumns& columns,
                                         std::optional<DateOrder> dates, HeadNotes& notes);

/// The median of the steps from row to row [s]; 0 when there are none.
double find_usual_step(const LogLayout& layout, const StampColumns& columns, const StampForm& form);

/// What to do about a column that holds no stamps that are read; empty when nothing is known.
/// "seconds from the start: ..."
std::string mend_of_times(std::string_view cell);

}  // namespace hailwright::detail
