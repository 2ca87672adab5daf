#pragma once

#include <csignal>

namespace hailwright::cli {

/// While it lives, a file larger than the user's limit is an error (EFBIG) and not the end of the
/// program.
class SizeLimitIsAnError {
public:
  SizeLimitIsAnError();
  SizeLimitIsAnError(const SizeLimitIsAnError&) = delete;
  SizeLimitIsAnError& operator=(const SizeLimitIsAnError&) = delete;
  SizeLimitIsAnError(SizeLimitIsAnError&&) = delete;
  SizeLimitIsAnError& operator=(SizeLimitIsAnError&&) = delete;
  ~SizeLimitIsAnError();

private:
  struct sigaction before_ {};
};

}  // namespace hailwright::cli
