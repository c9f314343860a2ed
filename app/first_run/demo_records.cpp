#include "app/first_run/demo_records.h"

#include <array>

#include "core/build/records.h"
#include "db/edits.h"
#include "db/record_fields.h"

namespace rodway {
namespace {

constexpr const char* at_desk = "2026-11-09T08:20:00Z"; ///< when these were written down
constexpr const char* at_desk_by = "MH";

/// Adds records of one kind as one act, with ids one behind the other.
template <typename Record, std::size_t count>
Result<Done> add_all(ShopSession& session, std::array<Record, count> records) {
    const auto first = new_id(session.shop(), RecordShape<Record>::kind);
    if (!first) {
        return first.error();
    }
    std::vector<Edit> edits;
    std::int64_t id = *first;
    for (Record& record : records) {
        record.id = id++;
        const auto more = edits_to_create(record);
        edits.insert(edits.end(), more.begin(), more.end());
    }
    const auto done = apply(session.shop(), std::move(edits), at_desk_by, at_desk);
    return done ? Result<Done>(Done{}) : Result<Done>(done.error());
}

Person person(const char* name, const char* initials, const char* role) {
    Person one;
    one.name = name;
    one.initials = initials;
    one.role = role;
    return one;
}

PartRecord part(std::int64_t build_id, const char* item, const char* role, int count,
                const char* supplier, const char* cost) {
    PartRecord one;
    one.build_id = build_id;
    one.item = item;
    one.role = role;
    one.count = count;
    one.supplier = supplier;
    one.cost = cost;
    one.needed = "2026-11-09";
    return one;
}

Result<Done> add_parts(ShopSession& session, std::int64_t build_id) {
    PartRecord gasket =
        part(build_id, "Head gasket, composite", "head_gasket", 1, "Quayside Gaskets", "86.40");
    gasket.ordered = "2026-11-10";
    gasket.promised = "2026-11-24";
    gasket.order_number = "QG 2214";
    PartRecord springs =
        part(build_id, "Valve springs, single", "valve_spring", 12, "Tarn Springs", "198.00");
    springs.ordered = "2026-11-10";
    springs.received = "2026-11-17";
    springs.measured = "2026-11-18";
    PartRecord studs =
        part(build_id, "Head studs", "head_bolt", 14, "Lowfield Fasteners", "171.50");
    studs.thread = "1/2-13";
    studs.length = "4.5 in";
    studs.drive = "hexagon";
    studs.tightening = "30/60/85 lb-ft";
    studs.ordered = "2026-11-12";
    studs.promised = "2026-12-11";
    PartRecord damper = part(build_id, "Damper", "damper", 1, "", "");
    damper.supplier.reset();
    damper.cost.reset();
    damper.owner = PartOwner::customer;
    damper.condition = "used, rubber sound, timing marks worn";
    damper.received = "2026-11-04";
    return add_all(session, std::array{gasket, springs, studs, damper});
}

AccountLine line(std::int64_t build_id, AccountPaper paper, int ordinal, const char* text,
                 const char* amount) {
    AccountLine one;
    one.build_id = build_id;
    one.paper = paper;
    one.ordinal = ordinal;
    one.text = text;
    one.amount = amount;
    return one;
}

Result<Done> add_account(ShopSession& session, std::int64_t build_id) {
    AccountLine deposit = line(build_id, AccountPaper::deposit, 0, "With the order", "1500.00");
    deposit.dated = "2026-11-03";
    const auto lines = add_all(
        session,
        std::array{
            line(build_id, AccountPaper::estimate, 0, "Take apart, clean, measure", "680.00"),
            line(build_id, AccountPaper::estimate, 1, "Bore, hone and deck the block", "940.00"),
            line(build_id, AccountPaper::estimate, 2, "Assemble, degree, first start", "1850.00"),
            deposit});
    if (!lines) {
        return lines.error();
    }
    Approval guides;
    guides.build_id = build_id;
    guides.subject = "Exhaust guides: six new ones, fitted and sized";
    guides.amount = "312.00";
    guides.answer = ApprovalAnswer::approved;
    guides.by_whom = "Ketil Aune";
    guides.manner = "letter";
    guides.asked_at = "2026-11-12T13:10:00Z";
    guides.answered_at = "2026-11-13T09:45:00Z";
    Approval rods;
    rods.build_id = build_id;
    rods.subject = "Connecting rods: peen, size and new bolts";
    rods.amount = "445.00";
    rods.asked_at = "2026-11-26T15:30:00Z";
    const auto extras = add_all(session, std::array{guides, rods});
    if (!extras) {
        return extras.error();
    }
    WorkedTime apart;
    apart.build_id = build_id;
    apart.day = "2026-11-05";
    apart.minutes = 330;
    apart.work = "taking apart";
    WorkedTime measured = apart;
    measured.day = "2026-11-06";
    measured.minutes = 195;
    measured.work = "measuring";
    return add_all(session, std::array{apart, measured});
}

} // namespace

Result<Done> add_demo_people(ShopSession& session) {
    return add_all(session, std::array{person("Mirela Haugan", "MH", "builds and signs"),
                                       person("Jonas Fellvik", "JF", "machining"),
                                       person("Pia Orrestad", "PO", "desk, parts and customers")});
}

Result<Done> add_demo_parts_and_account(ShopSession& session, std::int64_t build_id) {
    const auto parts = add_parts(session, build_id);
    return parts ? add_account(session, build_id) : parts;
}

} // namespace rodway
