#pragma once

#include "cli/descriptor.hpp"

namespace hailwright::cli {

/// While it lives, what is written to standard error goes nowhere: for a library that complains
/// there of what it gives back as well. Where that cannot be arranged, nothing is muted.
class MutedErrors {
public:
  MutedErrors();
  MutedErrors(const MutedErrors&) = delete;
  MutedErrors& operator=(const MutedErrors&) = delete;
  MutedErrors(MutedErrors&&) = delete;
  MutedErrors& operator=(MutedErrors&&) = delete;
  ~MutedErrors();

private:
  Descriptor before_;
};

}  // namespace hailwright::cli
