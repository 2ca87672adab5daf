#pragma once

#include <map>
#include <string>
#include <vector>

#include "hailwright/model/record.hpp"
#include "honesty/design.hpp"
#include "honesty/errors.hpp"
#include "honesty/nature.hpp"

namespace hailwright::honesty {

/// A test as a reviewer writes it: protocol, panel and record with its tables. The panel was struck
/// at both places at the grade and looked at before and after, so that its word hangs on its power
/// alone.
class WrittenTest {
public:
  /// @param stated  what the protocol says of the errors
  WrittenTest(const Design& design, const Layout& layout, const Errors& stated);

  /// The files, read by the readers that `judge` uses. Ends the program where they find an error,
  /// since the text is ours.
  [[nodiscard]] Test read(const std::vector<Typed>& readings) const;

private:
  std::map<std::string, std::string> files_;  ///< the record without its readings
  const Layout& layout_;
};

/// Puts readings into a test that was read from the same layout.
void put_readings(Test& test, const std::vector<Typed>& readings);

}  // namespace hailwright::honesty
