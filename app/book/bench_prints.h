#pragma once

#include <QPageSize>
#include <QString>
#include <optional>

#include "app/book/book_block.h"
#include "app/book/book_facts.h"
#include "app/parts/buy_list.h"
#include "core/base/result.h"

namespace rodway {

/// The engine from above with its own numbering, to hang over the bench, and a line for each valve
/// in the order of full lift, to be ticked. Without a set-up it says what is missing.
[[nodiscard]] BookBlocks plan_paper(const BookFacts& facts);

/// Every joint with its bolts: in which order they are tightened, in which steps, and boxes to
/// tick. Without a joint it says which quantities make one.
[[nodiscard]] BookBlocks torque_order_paper(const BookFacts& facts);

/// What all builds wait for, by supplier. `today`: ISO day.
[[nodiscard]] BookBlocks buy_list_paper(const std::vector<BuyLine>& lines,
                                        const std::string& today);

/// Letter where inches are the rule, else A4.
[[nodiscard]] QPageSize::PageSizeId paper_used_here();

/// One of them as a PDF; without a build it is the shop's. Error: as `write_output`.
Result<Done> write_bench_paper(BookBlocks blocks, const QString& title,
                               const std::optional<Build>& build, QPageSize::PageSizeId size,
                               const QString& path);

} // namespace rodway
