#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <string_view>

#include "hailwright/input/readers.hpp"

namespace hailwright::cli {

/// The name by which a command reads standard input.
inline constexpr const char* standard_input = "-";

/// What lies behind the name of a log, seen without opening it.
struct SourceLook {
  std::string problem;               ///< "is a folder"; empty: it can be read
  std::string hint;                  ///< the mend
  std::optional<std::int64_t> size;  ///< of an ordinary file, which can be read again [bytes]
};

/// Looks at a file, a pipe or, by the name "-", standard input. Folders, devices and terminals are
/// refused: nothing ever waits for somebody to type, or reads zeros without end.
SourceLook look_at_source(const std::string& path);

/// Who wants to know what is read, as it lies in the file: compressed where that is. May be called
/// on another thread, by one at a time.
struct ByteWatch {
  std::function<void(std::string_view)> piece = {};
  std::function<std::string()> end = {};  ///< at the end: what is wrong with it all; empty: nothing
};

/// The bytes of a file of any size, of a pipe, or by the name "-" of standard input. It is opened
/// when first asked for bytes and closed at its end. What begins like gzip (RFC 1952) is
/// decompressed, whatever its name, all its members in sequence. Memory is constant.
LogBytes byte_source(const std::string& path, ByteWatch watch = {});

/// For the logs that records name: ordinary files alone, since they are read more than once.
OpenedLog open_log_file(const std::string& path, ByteWatch watch = {});

}  // namespace hailwright::cli
