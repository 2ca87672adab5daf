#pragma once

#include <cstddef>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <string_view>

#include "hailwright/core/diagnostic.hpp"
#include "hailwright/core/source.hpp"
#include "hailwright/logs/log_format.hpp"
#include "hailwright/model/panel.hpp"
#include "hailwright/model/protocol.hpp"
#include "hailwright/model/record.hpp"
#include "hailwright/model/specimens.hpp"

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

/// Kind of a file by its first key: `hailwright: protocol 1`, `panel 1`, `record 1`, `columns 1`,
/// `specimens 1`.
enum class FileKind { protocol, panel, record, columns, specimens, unknown };

/// Reads a protocol. All errors of the file come back in one go; `value` is set when there are
/// none.
Checked<Protocol> read_protocol(const std::string& path, const Loader& load, SourceSet& sources);

/// Reads a panel file.
Checked<Panel> read_panel(const std::string& path, const Loader& load, SourceSet& sources);

/// Protocols and panels that many records name, and where the places of a protocol lie on a panel:
/// kept by the caller from one record to the next, and read once. What is wrong with such a file is
/// said with the first record that names it. A later one that needs a file with errors has no value
/// either, without a message.
class SharedFiles {
public:
  struct Kept;
  SharedFiles();
  ~SharedFiles();
  SharedFiles(const SharedFiles&) = delete;
  SharedFiles& operator=(const SharedFiles&) = delete;
  SharedFiles(SharedFiles&& other) noexcept;
  SharedFiles& operator=(SharedFiles&& other) noexcept;
  Kept& kept() { return *kept_; }

private:
  std::unique_ptr<Kept> kept_;
};

/// Reads a record with its protocol, its panels and its tables, and checks them against each other.
/// Paths inside the record are taken from the record's folder.
/// @param open_log  for the logs that it names; without one they are fetched with `load`, up to 64
///                  MiB, and not decompressed
/// @param shared    what earlier records named; each record may have a `SourceSet` of its own
Checked<Test> read_test(const std::string& path, const Loader& load, SourceSet& sources,
                        const LogOpener& open_log = {}, SharedFiles* shared = nullptr);

/// Reads a column map for `hailwright readings --columns`: `columns:`, `separator:`, `decimal:`,
/// `dates:`, `zone:`, the keys that a log in a record takes too.
Checked<LogFormat> read_log_format(const std::string& path, const Loader& load, SourceSet& sources);

/// Reads specimens, each struck once, with their table of tests, and checks the protocol that the
/// file names, if it names one.
Checked<Specimens> read_specimens(const std::string& path, const Loader& load, SourceSet& sources);

/// Reads any of them for `check`: the messages alone.
/// @param open_log  as for `read_test`
Diagnostics check_file(const std::string& path, const Loader& load, SourceSet& sources,
                       const LogOpener& open_log = {});

}  // namespace hailwright
