#pragma once
// Decides at which moments of a pass shapes are kept, and writes them: fields/*.vtu and
// tools/*.vtp with their .pvd, and surface.csv. Moments are the first step, every
// `output.field_spacing` of travel, the largest ram force, the last loaded state and the
// released one. All ranks attach one. The first of them writes; where several share the
// coupon, each writes the cells that it owns into a .vtu of its own, and the first names
// them in a .pvtu.

#include "solver/pass/nodal_fields.h"
#include "solver/record/pvd_index.h"
#include "solver/record/run_folder.h"
#include "solver/record/surface_record.h"

#include <optional>

namespace throughbend
{
template <int dim>
class FieldWriter : public PassObserver<dim>
{
public:
  /// `folder` is the first rank's; null on the others, and where no file is wanted. All
  /// ranks of the model must make one together.
  /// `spacing` is the travel between field files [mm]; 0 = no fields. The model must
  /// outlive this.
  FieldWriter(const RunFolder *folder, const CouponModel<dim> &model, double spacing);

  void step_accepted(const PassView<dim> &view, const PassSample &sample) override;
  void ended(const PassView<dim> &view, const Finding &, const Release &) override;

  /// What it keeps for later, and which files there are. recall() takes away the shapes
  /// that were written after that moment.
  std::string memory() const override;
  std::string fault_of(const std::string &memory) const override;
  void        recall(const std::string &memory) override;

  /// Both faces at the largest ram force and at the end of the push, as far as the pass
  /// has got.
  const std::vector<SurfaceShot> &faces() const { return kept_.shots; }

private:
  struct Shape
  {
    NodalState state;
    double     force   = 0;     ///< of the ram [N]
    bool       written = false; ///< its fields

    template <class Archive>
    friend void transfer(Archive &a, Shape &value)
    {
      a(value.state, value.force, value.written);
    }
  };
  /// What it keeps in mind between steps.
  struct Kept
  {
    std::optional<Shape>          last, peak;
    std::vector<SurfaceShot>      shots;
    double                        due     = 0; ///< travel of the next regular shape [mm]
    int                           regular = 0; ///< regular shapes written
    int                           peaks   = 0; ///< of the force, written
    bool                          peak_recorded = false, loading_closed = false;
    std::map<std::string, double> fields, tools; ///< for checkpoints: entries of the .pvd

    template <class Archive>
    friend void transfer(Archive &a, Kept &value)
    {
      auto &[last, peak, shots, due, regular, peaks, peak_recorded, loading_closed, fields,
             tools] = value;
      a(last, peak, shots, due, regular, peaks, peak_recorded, loading_closed, fields,
        tools);
    }
  };
  static Kept kept_in(const std::string &memory);

  void   write(const PassView<dim> &view, Shape &shape, const std::string &name);
  void   write_parts(const NodalState &state, const std::string &name) const;
  void   write_peak(const PassView<dim> &view);
  void   keep_faces(const PassView<dim> &view, const Shape &shape, Moment moment);
  void   close_loading(const PassView<dim> &view);
  double time_of(const NodalState &state) const;

  const RunFolder *const      folder_;
  const int                   n_ranks_;
  const std::filesystem::path fields_folder_; ///< of all ranks; empty: no file is wanted
  const double                spacing_;
  const CouponModel<dim>     &model_;
  NodalFields<dim>            fields_;
  std::optional<PvdIndex>     field_index_, tool_index_;
  Kept                        kept_;
};
} // namespace throughbend
