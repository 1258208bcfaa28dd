#include "solver/study/passes/rank_crew.h"

#include "inputs/keys/case_reader.h"
#include "inputs/keys/case_text.h"
#include "solver/study/file/study_pass_text.h"

#include <chrono>
#include <stdexcept>

namespace throughbend
{
namespace
{
enum Tag
{
  order_tag = 1, ///< task, line end, case
  done_tag,      ///< task, line end, one word: pass, stopped, failed; line end, text
  stop_tag,
  home_tag
};

// A rank that waits must leave the processor to those that work [s].
constexpr auto nap = std::chrono::milliseconds(2);

void send(const std::string &text, const int rank, const int tag, MPI_Comm communicator)
{
  MPI_Send(text.data(), static_cast<int>(text.size()), MPI_CHAR, rank, tag, communicator);
}

std::string receive(const MPI_Status &status, MPI_Comm communicator)
{
  int size = 0;
  MPI_Get_count(&status, MPI_CHAR, &size);
  std::string text(static_cast<std::size_t>(size), '\0');
  MPI_Recv(text.data(), size, MPI_CHAR, status.MPI_SOURCE, status.MPI_TAG, communicator,
           MPI_STATUS_IGNORE);
  return text;
}

std::optional<MPI_Status> arrived(const int rank, const int tag, MPI_Comm communicator)
{
  int        is_there = 0;
  MPI_Status status;
  MPI_Iprobe(rank, tag, communicator, &is_there, &status);
  return is_there != 0 ? std::optional(status) : std::nullopt;
}

/// The first line, which is taken off the text.
std::string line_of(std::string &text)
{
  const std::size_t end  = text.find('\n');
  std::string       line = text.substr(0, end);
  text.erase(0, end == std::string::npos ? end : end + 1);
  return line;
}
} // namespace

RankCrew::RankCrew(const PassMaker &make, MPI_Comm communicator)
    : communicator_(communicator), own_(make, 1)
{
  int ranks = 1;
  MPI_Comm_size(communicator_, &ranks);
  busy_.assign(static_cast<std::size_t>(ranks), false);
  given_.assign(static_cast<std::size_t>(ranks), false);
}

RankCrew::~RankCrew()
{
  stop();
  // A rank that is still sending its pass waits until somebody takes it.
  const auto any_busy = [this]
  {
    for (std::size_t rank = 1; rank < busy_.size(); ++rank)
      if (busy_[rank])
        return true;
    return false;
  };
  while (any_busy())
    if (!received())
      std::this_thread::sleep_for(nap);
  for (std::size_t rank = 1; rank < busy_.size(); ++rank)
    send("", static_cast<int>(rank), home_tag, communicator_);
}

std::size_t RankCrew::free() const
{
  std::size_t count = own_.free();
  for (std::size_t rank = 1; rank < busy_.size(); ++rank)
    count += busy_[rank] ? 0 : 1;
  return count;
}

void RankCrew::begin(const std::size_t task, const Case &c)
{
  for (std::size_t rank = 1; rank < busy_.size(); ++rank)
    if (!busy_[rank])
    {
      send(std::to_string(task) + '\n' + effective_text(c), static_cast<int>(rank),
           order_tag, communicator_);
      busy_[rank] = true;
      return;
    }
  own_.begin(task, c);
}

std::optional<PassDone> RankCrew::received()
{
  const std::optional<MPI_Status> status = arrived(MPI_ANY_SOURCE, done_tag, communicator_);
  if (!status)
    return std::nullopt;
  std::string text                                       = receive(*status, communicator_);
  busy_.at(static_cast<std::size_t>(status->MPI_SOURCE)) = false;
  PassDone done;
  done.task               = std::stoul(line_of(text));
  const std::string state = line_of(text);
  if (state == "pass")
    done.pass = pass_of_text(text);
  else if (state == "failed")
    done.failure = "on rank " + std::to_string(status->MPI_SOURCE) + ": " + text;
  return done;
}

std::optional<PassDone> RankCrew::next_done(const double patience)
{
  using Clock      = std::chrono::steady_clock;
  const auto until = Clock::now() + std::chrono::duration<double>(patience);
  for (;;)
  {
    if (std::optional<PassDone> done = received())
      return done;
    if (std::optional<PassDone> done = own_.next_done(0.005))
      return done;
    if (Clock::now() >= until)
      return std::nullopt;
  }
}

void RankCrew::stop()
{
  own_.stop();
  for (std::size_t rank = 1; rank < busy_.size(); ++rank)
    if (!given_[rank])
    {
      send("", static_cast<int>(rank), stop_tag, communicator_);
      given_[rank] = true;
    }
}

void serve_passes(const PassMaker &make, MPI_Comm communicator,
                  const std::function<bool()> &stop)
{
  bool       stopped = false;
  const auto asked   = [&]
  {
    if (const auto status = arrived(0, stop_tag, communicator))
    {
      receive(*status, communicator);
      stopped = true;
    }
    return stopped = stopped || stop();
  };
  for (;;)
  {
    asked();
    if (const auto home = arrived(0, home_tag, communicator))
    {
      receive(*home, communicator);
      return;
    }
    const auto order = arrived(0, order_tag, communicator);
    if (!order)
    {
      std::this_thread::sleep_for(nap);
      continue;
    }
    std::string       text    = receive(*order, communicator);
    const std::string task    = line_of(text);
    const CaseReading reading = read_case_text(text, "the case of a rank", {});
    PassDone          done;
    if (reading.value)
      done = carried_out(0, *reading.value, make, asked);
    else
      done.failure = error_list(reading.errors);
    send(task + '\n' +
             (done.pass              ? "pass\n" + pass_text(*done.pass)
              : done.failure.empty() ? "stopped\n"
                                     : "failed\n" + done.failure),
         0, done_tag, communicator);
  }
}
} // namespace throughbend
