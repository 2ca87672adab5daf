#include "hailwright/logs/log_block.hpp"

namespace hailwright {

void LogBlock::clear() {
  time_us.clear();
  for (std::vector<double>& column : values)
    column.clear();
  line.clear();
  markers.clear();
  first_line = 1;
  file = 0;
  begins_file = false;
  lines = 0;
  unreadable = 0;
  comments = 0;
  repeated_headers = 0;
  bytes = 0;
  problems.clear();
  counted.clear();
}

}  // namespace hailwright
