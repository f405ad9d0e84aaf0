#include "src/service/model_text.h"

#include <boost/describe.hpp>

#include "libs/formats/json.h"

namespace hw::counters {

BOOST_DESCRIBE_ENUM(Role, none, availability, power_state, execution, spindle_speed, path_feed, path_rapid, axis_feed,
                    angular_velocity, load, position, own_counter, count)
BOOST_DESCRIBE_STRUCT(Item, (),
                      (id, name, source, category, type, sub_type, units, native_units, representation,
                       coordinate_system, component, component_id, component_name, native_to_units, has_reset_trigger,
                       role))
BOOST_DESCRIBE_STRUCT(MachineModel, (), (id, name, uuid, items))

}  // namespace hw::counters

namespace hw::service {

std::string print_model(const counters::MachineModel& model) { return formats::print_json(model); }

Result<counters::MachineModel> parse_model(std::string_view text) {
  return formats::parse_json<counters::MachineModel>(text);
}

}  // namespace hw::service
