#pragma once

/// All records of the shop file, each a plain struct as a person would fill it in. What a field may
/// hold is said in `db/record_tables`.

#include "core/build/account.h"
#include "core/build/build.h"
#include "core/build/known_engine.h"
#include "core/build/note.h"
#include "core/build/open_item.h"
#include "core/build/part.h"
#include "core/build/people.h"
#include "core/build/plan.h"
#include "core/build/reading.h"
#include "core/build/set_up_record.h"
