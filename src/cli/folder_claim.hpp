#pragma once

#include <string>

#include "cli/descriptor.hpp"

namespace hailwright::cli {

/// A folder that one program at a time writes into. The claim ends with the object, or with the
/// program, however that ends.
class FolderClaim {
public:
  enum class State {
    held,
    taken,      ///< by another program
    impossible  ///< there is no such folder, or its file system has no claims
  };

  explicit FolderClaim(std::string folder);
  [[nodiscard]] State state() const { return state_; }

  /// Removes the temporary files that a killed run left in a folder inside this one ("" for this
  /// one itself). Only what is certainly nobody's: the claim is held, and the program that made the
  /// file, whose number is part of its name, has ended.
  void remove_leftovers(const std::string& inside) const;

private:
  std::string folder_;
  Descriptor handle_;
  State state_ = State::impossible;
};

}  // namespace hailwright::cli
