#include "cli/today.hpp"

#include <array>
#include <ctime>

namespace hailwright::cli {

std::string today() {
  const std::time_t now = std::time(nullptr);
  std::tm local{};
  if (localtime_r(&now, &local) == nullptr) return "1970-01-01";
  std::array<char, 32> text{};
  const std::size_t size = std::strftime(text.data(), text.size(), "%Y-%m-%d", &local);
  return {text.data(), size};
}

}  // namespace hailwright::cli
