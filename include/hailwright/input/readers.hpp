#pragma once

#include <cstddef>
#include <functional>
#include <optional>
#include <string>
#include <string_view>

#include "hailwright/core/diagnostic.hpp"
#include "hailwright/core/source.hpp"
#include "hailwright/model/panel.hpp"
#include "hailwright/model/protocol.hpp"
#include "hailwright/model/record.hpp"

namespace hailwright {

/// What came of opening a file: its text, or what is wrong and the mend.
struct Loaded {
  std::optional<std::string> text;
  std::string problem;  ///< "is a directory"
  std::string hint;     ///< "name the record file inside it"
};

/// Fetches a file of at most so many bytes. Given by the caller: the library itself touches no
/// file.
using Loader = std::function<Loaded(const std::string& path, std::size_t largest)>;

/// Largest sizes read [bytes]: nothing that a person writes comes near them.
inline constexpr std::size_t largest_yaml = 1U << 20U;
inline constexpr std::size_t largest_table = 8U << 20U;

/// Kind of a file by its first key: `hailwright: protocol 1`, `panel 1`, `record 1`.
enum class FileKind { protocol, panel, record, unknown };

/// Reads a protocol. All errors of the file come back in one go; `value` is set when there are
/// none.
Checked<Protocol> read_protocol(const std::string& path, const Loader& load, SourceSet& sources);

/// Reads a panel file.
Checked<Panel> read_panel(const std::string& path, const Loader& load, SourceSet& sources);

/// Reads a record with its protocol, its panels and its tables, and checks them against each other.
/// Paths inside the record are taken from the record's folder.
Checked<Test> read_test(const std::string& path, const Loader& load, SourceSet& sources);

/// Reads any of the three for `check`: the messages alone.
Diagnostics check_file(const std::string& path, const Loader& load, SourceSet& sources);

}  // namespace hailwright
