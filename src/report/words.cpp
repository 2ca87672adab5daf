#include "report/words.hpp"

#include "hailwright/core/quantity_text.hpp"

namespace hailwright {

std::string enumerate(const std::vector<std::string>& items) {
  std::string out;
  for (std::size_t i = 0; i < items.size(); ++i) {
    if (i > 0) out += i + 1 == items.size() ? " and " : ", ";
    out += items[i];
  }
  return out;
}

std::string plain_number(double value, int digits) {
  std::string text = significant(value, digits);
  if (text.find('.') == std::string::npos || text.find('e') != std::string::npos) return text;
  text.erase(text.find_last_not_of('0') + 1);
  if (text.back() == '.') text.pop_back();
  return text;
}

std::string counted(int n, const std::string& noun) {
  const bool es = noun.ends_with("s") || noun.ends_with("sh");
  return std::to_string(n) + " " + noun + (n == 1 ? "" : es ? "es" : "s");
}

}  // namespace hailwright
