#include "report/words.hpp"

#include <cmath>

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

std::string money_text(const Money& money) {
  constexpr double ten_millions = 1e7;
  constexpr double half_a_cent = 0.005;
  const double size = std::abs(money.amount);
  const bool told_in_cents = size == 0.0 || (size >= half_a_cent && size < ten_millions);
  const std::string number = told_in_cents ? fixed(money.amount, 2) : significant(money.amount, 3);
  return number + ' ' + money.currency;
}

std::string capitalised(std::string text) {
  if (!text.empty() && text.front() >= 'a' && text.front() <= 'z')
    text.front() = static_cast<char>(text.front() - 'a' + 'A');
  return text;
}

std::string letters_of(std::size_t index) {
  constexpr std::size_t letters = 26;
  std::string text;
  for (std::size_t rest = index + 1; rest > 0; rest = (rest - 1) / letters)
    text.insert(text.begin(), static_cast<char>('A' + (rest - 1) % letters));
  return text;
}

std::string counted(int n, const std::string& noun) {
  const bool es = noun.ends_with("s") || noun.ends_with("sh");
  return std::to_string(n) + " " + noun + (n == 1 ? "" : es ? "es" : "s");
}

}  // namespace hailwright
