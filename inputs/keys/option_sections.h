#pragma once
// The option table in its parts, one function per file options_*.cc;
// inputs/keys/option_table joins them in the order in which they are set and shown.

#include "inputs/case/option.h"

namespace throughbend
{
using Options = std::vector<Option>;

void add_coupon_options(Options &o);     ///< case, coupon
void add_weld_options(Options &o);       ///< weld, weld_metal, haz
void add_flaw_options(Options &o);       ///< flaw, flaw2, flaw3
void add_material_options(Options &o);   ///< material
void add_fixture_options(Options &o);    ///< fixture, plunger, shoulders, frame
void add_friction_options(Options &o);   ///< friction
void add_ram_options(Options &o);        ///< ram, jack
void add_settings_options(Options &o);   ///< mesh, solver, output
void add_inspection_options(Options &o); ///< inspection
} // namespace throughbend
