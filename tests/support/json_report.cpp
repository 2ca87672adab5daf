#include "support/json_report.hpp"

#include "support/file_bytes.hpp"

namespace hailwright::testing {

nlohmann::ordered_json json_of(const WriteUp& write_up) {
  return nlohmann::ordered_json::parse(report_json(write_up));
}

const nlohmann::json& report_schema() {
  static const nlohmann::json schema =
      nlohmann::json::parse(tree_file("docs/schemas/report.schema.json"));
  return schema;
}

}  // namespace hailwright::testing
