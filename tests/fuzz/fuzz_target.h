#pragma once
// What a fuzzer, or the replay of its corpus, feeds with bytes. Each target stands in a
// file of its own: a reader is called with the bytes and may answer with a value or an
// InputError; anything else is a fault.

#include <cstddef>
#include <cstdint>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t *bytes, std::size_t size);
