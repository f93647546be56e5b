#pragma once
#include <string>

#include "tests/measured/scores.hpp"

/// Scores as lines of text on standard output, one model a line.
namespace gley::measured {

void print_heading(const std::string& record);
/// What a table counts in: water content m3/m3, or mm.
enum class Unit { m3_m3, mm };
void print_scores(const std::string& model, const Scores& scores, Unit unit);
void print_capacity(const std::string& model, const CapacityScores& scores);
/// Each year's days of leaving and returning to field capacity, measured and modelled.
void print_turns(const Series& measured_mm, const Series& model_mm);
/// A line for each naive model that does better than ours, by the error that a bias leaves alone.
void print_losses(const std::string& naive, const Scores& its, const Scores& ours);

}  // namespace gley::measured
