#pragma once

#include <map>
#include <string>
#include <vector>

#include "hailwright/core/diagnostic.hpp"
#include "hailwright/input/readers.hpp"
#include "input/yaml_cursor.hpp"

/// Files that exist only in a test, and what readers said about them.
namespace input_files {

using Files = std::map<std::string, std::string>;

/// A loader over such files; other names "cannot be opened". `files` must outlive it.
hailwright::Loader loader(const Files& files);

/// A small protocol, panel and record without a fault: protocol.yaml, panel.yaml, record.yaml.
Files good_files();

/// One fault to look for.
struct Seen {
  std::string code;
  int line = 0;
  int column = 0;
  friend bool operator==(const Seen&, const Seen&) = default;
};
std::ostream& operator<<(std::ostream& out, const Seen& seen);

/// All messages in the order of their places.
std::vector<Seen> seen(const hailwright::Diagnostics& notes);

/// The text of the only message; a failed check when there is another number of them.
hailwright::Diagnostic only(const hailwright::Diagnostics& notes);

/// A text read as YAML that must have no fault in itself.
hailwright::input::Node tree(const std::string& text);

}  // namespace input_files
