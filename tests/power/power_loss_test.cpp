// The power fails at every operation of the disk, in every scene in which the service writes.

#include <cstdlib>

#include <fmt/format.h>

#include "tests/power/recording.h"

namespace hw::power {
namespace {

std::size_t number_from(const char* variable, std::size_t otherwise) {
  const char* text = std::getenv(variable);
  return text ? std::strtoull(text, nullptr, 10) : otherwise;
}

void print_row(const auto& name, const auto& operations, const auto& runs, const auto& lost, const auto& half) {
  fmt::print("| {:<26} | {:>10} | {:>6} | {:>6} | {:>4} |\n", name, operations, runs, lost, half);
}

// `runs` over all scenes together.
CutCount cut_all(Commits commits, std::size_t runs) {
  const auto seed = number_from("HOURWRIGHT_SEED", 20260302);
  const auto scenes = writing_scenes();
  Reopening reopening;
  CutCount all;
  fmt::print("seed {}\n", seed);
  print_row("scene", "operations", "runs", "lost", "half");
  for (const WritingScene& scene : scenes) {
    const Recording recording = record(scene, commits, reopening);
    const CutCount count = cut_everywhere(recording, runs / scenes.size() + 1, seed, reopening);
    print_row(scene.name, recording.operations.size(), count.runs, count.lost, count.half);
    if (!count.first_trouble.empty()) fmt::print("{}: {}\n", scene.name, count.first_trouble);
    all.runs += count.runs;
    all.lost += count.lost;
    all.half += count.half;
  }
  print_row("all", "", all.runs, all.lost, all.half);
  fmt::print("{} different databases were examined\n", reopening.different());
  return all;
}

TEST(PowerLoss, WhatWasConfirmedIsThereAndNothingIsThereByHalf) {
  const CutCount count = cut_all(Commits::as_asked, number_from("HOURWRIGHT_POWER_CUTS", 2'000));
  EXPECT_EQ(count.lost, 0u);
  EXPECT_EQ(count.half, 0u);
}

TEST(PowerLoss, WithoutASyncAtEveryCommitTheSameCutsLoseEntries) {
  const CutCount count = cut_all(Commits::normal, number_from("HOURWRIGHT_POWER_CUTS", 2'000) / 10);
  EXPECT_GT(count.lost, 0u) << "these cuts could not see a loss";
  EXPECT_EQ(count.half, 0u);
}

}  // namespace
}  // namespace hw::power
