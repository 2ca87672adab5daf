#include "hailwright/core/citation.hpp"

#include "hailwright/core/contract.hpp"

namespace hailwright {

std::string_view text(ReadStatus status) {
  switch (status) {
  case ReadStatus::read:
    return "read";
  case ReadStatus::computed:
    return "computed";
  case ReadStatus::from_memory:
    return "from memory";
  case ReadStatus::common_practice:
    return "common practice, no source";
  case ReadStatus::ours:
    return "ours, no published source";
  }
  fail_contract("unknown read status");
}

}  // namespace hailwright
