#pragma once
// Passes on the ranks of an MPI job: the first rank gives each free rank the next case, and
// makes passes itself on a thread. A rank never waits for another one's pass. Nothing but
// texts goes between them: the effective case, and the pass as it stands in the store.

#include "solver/study/pass_crew.h"

#include <mpi.h>

#include <string>
#include <vector>

namespace throughbend
{
/// The first rank's.
class RankCrew : public PassCrew
{
public:
  RankCrew(const PassMaker &make, MPI_Comm communicator);
  ~RankCrew() override; ///< stops what is under way, and sends the other ranks home

  std::size_t             free() const override;
  void                    begin(std::size_t task, const Case &c) override;
  std::optional<PassDone> next_done(double patience) override;
  void                    stop() override;

private:
  std::optional<PassDone> received();

  MPI_Comm          communicator_;
  ThreadCrew        own_;
  std::vector<bool> busy_;  ///< of each rank; the first is own_
  std::vector<bool> given_; ///< to stop
};

/// What every other rank does until the first sends it home. `stop`: asked during a pass
/// beside what the first rank says.
void serve_passes(const PassMaker &make, MPI_Comm communicator,
                  const std::function<bool()> &stop);
} // namespace throughbend
