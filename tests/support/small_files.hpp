#pragma once

#include <sys/resource.h>

#include "support/catch.hpp"

namespace hailwright::testing {

/// While it lives, this program can write files of at most so many bytes.
class SmallFiles {
public:
  explicit SmallFiles(rlim_t bytes) {
    REQUIRE(getrlimit(RLIMIT_FSIZE, &before_) == 0);
    const rlimit small{bytes, before_.rlim_max};
    REQUIRE(setrlimit(RLIMIT_FSIZE, &small) == 0);
  }
  SmallFiles(const SmallFiles&) = delete;
  SmallFiles& operator=(const SmallFiles&) = delete;
  SmallFiles(SmallFiles&&) = delete;
  SmallFiles& operator=(SmallFiles&&) = delete;
  ~SmallFiles() { setrlimit(RLIMIT_FSIZE, &before_); }

private:
  rlimit before_{};
};

}  // namespace hailwright::testing
