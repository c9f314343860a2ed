#pragma once

#include "app/command_line/fit_answer.h"

namespace rodway {

/// What `rodway fit` says of a fit.
void print_fit(const FitAnswer& answer);

/// That its first place was written into a new set-up.
void print_kept(const FitAnswer& answer);

} // namespace rodway
