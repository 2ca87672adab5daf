#pragma once

#include <cstdint>
#include <optional>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "hailwright/input/readers.hpp"

namespace hailwright::cli {

/// Reads a regular file of at most so many bytes. Anything else - a folder, a device, a pipe, a
/// file too large - is told apart and never waited for.
Loaded load_file(const std::string& path, std::size_t largest);

/// SHA-256 of an ordinary file of any size, as `sha256_hex` writes it; nothing when there is none
/// or it cannot be read.
std::optional<std::string> sha256_of_file(const std::string& path);

/// Files by what they are, however a path calls them. What is not there is left out.
class FileSet {
public:
  explicit FileSet(const std::vector<std::string>& paths);
  /// False where it was among them already.
  bool add(const std::string& path);
  [[nodiscard]] bool has(const std::string& path) const;

private:
  std::set<std::pair<std::uint64_t, std::uint64_t>> files_;  ///< device and number on it
};

}  // namespace hailwright::cli
