#include "report/json_values.hpp"

namespace hailwright::json {

Json caution_list(const std::vector<const Caution*>& cautions) {
  Json list = Json::array();
  for (const Caution* c : cautions) {
    list.push_back({{"id", c->id},
                    {"hazard", c->hazard},
                    {"text", c->text},
                    {"source", c->source},
                    {"status", text(c->status)}});
  }
  return list;
}

std::string dump(const Json& j) {
  return j.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

std::string dump_line(const Json& j) {
  return j.dump(-1, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace hailwright::json
