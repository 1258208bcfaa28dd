#pragma once
// Names of the arrays in the files of shapes (.vtu), for the program that writes them and
// those that read them. A name begins with its kind, so that lists sorted by name keep
// kinds together; it ends with its unit; and it is a plain word that formulas of a viewer
// take as it stands.

namespace throughbend::field_names
{
constexpr char contact_pressure[] = "contact_pressure_MPa"; ///< per undeformed area
constexpr char displacement[]     = "displacement_mm";      ///< vector
constexpr char axial_strain[]     = "strain_axial_log";     ///< what a viewer colours by
constexpr char plastic_strain[]   = "strain_plastic_equivalent";
constexpr char von_mises_stress[] = "stress_von_mises_MPa";
constexpr char stress_xx[]        = "stress_xx_MPa"; ///< Cauchy
constexpr char stress_yy[]        = "stress_yy_MPa";
constexpr char stress_zz[]        = "stress_zz_MPa"; ///< out of the plane
constexpr char stress_xy[]        = "stress_xy_MPa";
constexpr char stress_xz[]        = "stress_xz_MPa"; ///< bodies with width only
constexpr char stress_yz[]        = "stress_yz_MPa"; ///< bodies with width only
constexpr char flaw_lip[] = "flaw_lip"; ///< 1 left, 2 right, else 0; only with flaws
constexpr char zone[]     = "zone";     ///< 0 base, 1 HAZ, 2 weld
} // namespace throughbend::field_names
