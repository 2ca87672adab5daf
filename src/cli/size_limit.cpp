#include "cli/size_limit.hpp"

namespace hailwright::cli {

SizeLimitIsAnError::SizeLimitIsAnError() {
  struct sigaction ignore {};
  ignore.sa_handler = SIG_IGN;  // NOLINT(cppcoreguidelines-pro-type-cstyle-cast): its own
  sigaction(SIGXFSZ, &ignore, &before_);
}

SizeLimitIsAnError::~SizeLimitIsAnError() {
  sigaction(SIGXFSZ, &before_, nullptr);
}

}  // namespace hailwright::cli
