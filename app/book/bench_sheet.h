#pragma once

#include <QPagedPaintDevice>
#include <QString>

#include "core/build/records.h"
#include "core/engine/engine.h"

namespace rodway {

/// Paints the blank sheet for a clearance walk: the plan, and a row to fill in for every valve, in
/// the engine's own numbering. One page of the device's size. A sheet is keyed in later.
void paint_bench_sheet(QPagedPaintDevice& device, const Build& build, const Engine& engine);

/// The same as a PDF. Error: cannot_write.
Result<Done> write_bench_sheet(const Build& build, const Engine& engine, const QString& path);

} // namespace rodway
