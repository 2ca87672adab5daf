#include "input/side_values.hpp"

#include <fmt/format.h>

namespace hailwright::input {

const std::vector<Node>& side_items(const MapReader& record, std::string_view key,
                                    std::string_view example) {
  static const std::vector<Node> none;
  const std::vector<Node>* items = record.list(key);
  if (items == nullptr) return none;
  if (items->empty()) {
    record.notes().error(
        "K14", record.find(key)->value.span, fmt::format("'{}' is an empty list", key),
        {fmt::format("write at least one entry, as in  {}", example), "or delete the key"});
  }
  return *items;
}

bool read_when(const MapReader& map) {
  return map.choice<bool>("when", {{"before", false}, {"after", true}}).value_or(false);
}

}  // namespace hailwright::input
