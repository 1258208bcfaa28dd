// Many passes in one process: passes per minute, and memory after 1, 100, 1000 of them.
// Made as a study makes them, by solver/pass/one_pass on several threads.
//
//   many_passes [PASSES] [THREADS]        default 1000 2

#include "solver/pass/one_pass.h"
#include "tests/solver/pass/resume_cases.h"

#include <atomic>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <mutex>
#include <string>
#include <thread>

namespace
{
/// Resident memory of this process [MB].
double memory()
{
  std::ifstream in("/proc/self/status");
  for (std::string line; std::getline(in, line);)
    if (line.rfind("VmRSS:", 0) == 0)
      return std::atof(line.c_str() + 6) / 1024;
  return 0;
}
} // namespace

int main(int argc, char **argv)
{
  using namespace throughbend;
  using Clock         = std::chrono::steady_clock;
  const int passes    = argc > 1 ? std::atoi(argv[1]) : 1000;
  const int n_threads = argc > 2 ? std::atoi(argv[2]) : 2;
  if (passes < 1 || n_threads < 1)
  {
    std::fprintf(stderr, "many_passes [PASSES] [THREADS]\n");
    return 2;
  }
  std::atomic<int> next{0}, done{0};
  std::mutex       printing;
  double           first_memory = 0, last_memory = 0;
  const auto       start = Clock::now();
  const auto       work  = [&]
  {
    for (int i = next++; i < passes; i = next++)
    {
      // A study: no two beside each other are alike.
      one_pass(resume_case(
          "--ram.stroke;90 mm;--coupon.thickness;" + std::to_string(10 + 0.07 * (i % 7)) +
          " mm;--friction.shoulders;" + std::to_string(0.05 + 0.01 * (i % 11))));
      const int                         n = ++done;
      const std::lock_guard<std::mutex> lock(printing);
      if (n == 1 || n == 10 || n == 100 || n == 1000 || n == passes)
      {
        const double minutes =
            std::chrono::duration<double>(Clock::now() - start).count() / 60;
        last_memory = memory();
        if (n <= 10)
          first_memory = last_memory;
        std::printf("%5d passes  %7.1f per minute  %7.1f MB\n", n, n / minutes,
                    last_memory);
        std::fflush(stdout);
      }
    }
  };
  std::vector<std::thread> threads;
  for (int i = 0; i < n_threads; ++i)
    threads.emplace_back(work);
  for (std::thread &thread : threads)
    thread.join();
  // Of what a thousand passes need no byte must be left; the heap's own room is not that.
  const bool grows = last_memory > first_memory + 30;
  std::printf(grows ? "memory grows\n" : "memory does not grow\n");
  return grows ? 1 : 0;
}
