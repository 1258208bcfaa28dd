// Tables of a shop: any columns, and the curve of a tension test.

#include "inputs/metal/shop_table.h"
#include "inputs/metal/tension_file.h"
#include "inputs/text/input_error.h"
#include "tests/fuzz/fuzz_target.h"

using namespace throughbend;

namespace
{
template <class Work>
void allow_refusal(const Work &work)
{
  try
  {
    work();
  }
  catch (const InputError &)
  {
    return;
  }
}
} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t *bytes, const std::size_t size)
{
  const std::string_view text(reinterpret_cast<const char *>(bytes), size);
  allow_refusal([&] { tension_file_of(text, "fuzz.csv"); });
  allow_refusal(
      [&]
      {
        const ShopTable table = ShopTable::of_text(text, "fuzz.csv");
        allow_refusal([&] { table.note({"jack bore", "title"}, UnitKind::length); });
        for (std::size_t c = 0; c < table.heads().size(); ++c)
          for (const UnitKind kind : {UnitKind::length, UnitKind::force, UnitKind::stress})
            allow_refusal([&] { table.values(c, kind); });
      });
  return 0;
}
