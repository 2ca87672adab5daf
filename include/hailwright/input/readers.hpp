#pragma once

#include <cstddef>
#include <functional>
#include <optional>
#include <string>
#include <string_view>

#include "hailwright/core/diagnostic.hpp"
#include "hailwright/core/source.hpp"
#include "hailwright/logs/log_format.hpp"
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

/// What came of opening a logger's file: its bytes as they come, decompressed, or what is wrong.
struct OpenedLog {
  std::optional<LogBytes> bytes;
  std::string problem;  ///< "is a directory"
  std::string hint;
};

/// Opens a logger's file of any size. Given by the caller, as `Loader`.
using LogOpener = std::function<OpenedLog(const std::string& path)>;

/// Largest sizes read [bytes]: nothing that a person writes comes near them.
inline constexpr std::size_t largest_yaml = 1U << 20U;
inline constexpr std::size_t largest_table = 8U << 20U;

/// Kind of a file by its first key: `hailwright: protocol 1`, `panel 1`, `record 1`, `columns 1`.
enum class FileKind { protocol, panel, record, columns, unknown };

/// Reads a protocol. All errors of the file come back in one go; `value` is set when there are
/// none.
Checked<Protocol> read_protocol(const std::string& path, const Loader& load, SourceSet& sources);

/// Reads a panel file.
Checked<Panel> read_panel(const std::string& path, const Loader& load, SourceSet& sources);

/// Reads a record with its protocol, its panels and its tables, and checks them against each other.
/// Paths inside the record are taken from the record's folder.
/// @param open_log  for the logs that it names; without one they are fetched with `load`, up to 64
///                  MiB, and not decompressed
Checked<Test> read_test(const std::string& path, const Loader& load, SourceSet& sources,
                        const LogOpener& open_log = {});

/// Reads a column map for `hailwright readings --columns`: `columns:`, `separator:`, `decimal:`,
/// `dates:`, `zone:`, the keys that a log in a record takes too.
Checked<LogFormat> read_log_format(const std::string& path, const Loader& load, SourceSet& sources);

/// Reads any of the four for `check`: the messages alone.
/// @param open_log  as for `read_test`
Diagnostics check_file(const std::string& path, const Loader& load, SourceSet& sources,
                       const LogOpener& open_log = {});

}  // namespace hailwright
