#include "inputs/keys/option_table.h"

#include "inputs/keys/option_sections.h"
#include "inputs/text/plain_text.h"

#include <algorithm>
#include <utility>

namespace throughbend
{
namespace
{
/// Dimensions that rules, or the shop, give in multiples of the coupon's thickness.
void allow_multiples(Options &options)
{
  for (Option &option : options)
    for (const char *key :
         {"plunger.width", "plunger.nose_radius", "shoulders.radius", "shoulders.opening",
          "shoulders.depth", "inspection.gauge_length"})
      if (option.key() == key)
        std::get<NumberSlot>(option.slot).thickness = [](const Case &c)
        { return c.coupon.thickness; };
}

Options all_options()
{
  Options options;
  add_coupon_options(options);
  add_material_options(options);
  add_weld_options(options);
  add_flaw_options(options);
  add_fixture_options(options);
  add_friction_options(options);
  add_ram_options(options);
  add_settings_options(options);
  add_inspection_options(options);
  allow_multiples(options);
  return options;
}
} // namespace

const std::vector<Option> &option_table()
{
  static const Options table = all_options();
  return table;
}

const Option *find_option(std::string_view key)
{
  for (const Option &option : option_table())
    if (option.key() == key)
      return &option;
  return nullptr;
}

std::vector<std::string> option_sections()
{
  std::vector<std::string> sections;
  for (const Option &option : option_table())
    if (sections.empty() || sections.back() != option.section)
      sections.push_back(option.section);
  return sections;
}

std::optional<std::string> nearest_key(std::string_view key)
{
  const std::size_t dot = key.find('.');
  const std::string section =
      dot == std::string_view::npos ? "" : std::string(key.substr(0, dot));
  const std::string name(dot == std::string_view::npos ? key : key.substr(dot + 1));

  std::vector<std::string> keys;
  for (const Option &option : option_table())
    keys.push_back(option.key());
  // A slip within the right section is likelier than a far key that happens to be short:
  // `plunger.radius` is meant for plunger.nose_radius.
  for (const Option &option : option_table())
    if (option.section == section && name.size() > 2 &&
        option.name.find(name) != std::string::npos)
      return option.key();
  if (const auto nearest = nearest_name(key, keys))
    return nearest;
  for (const Option &option : option_table())
    if (option.name == name)
      return option.key();
  return std::nullopt;
}
} // namespace throughbend
