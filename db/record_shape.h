#pragma once

#include <type_traits>
#include <utility>

#include "core/build/records.h"
#include "db/record_tables.h"

namespace rodway {

/// Which member of a record holds which field of its kind: `visit` calls `field(name, member)` for
/// each. Loading, creating and changing records of every kind work through this.
template <typename Record>
struct RecordShape;

// A macro, because the name of a field is the name of its member: neither can be misspelt alone.
#define RODWAY_FIELD(member) field(#member, record.member)

template <>
struct RecordShape<ShopDetail> {
    static constexpr RecordKind kind = RecordKind::shop_detail;
    template <typename Field, typename Record>
    static void visit(Field&& field, Record& record) {
        RODWAY_FIELD(name);
        RODWAY_FIELD(content);
    }
};

template <>
struct RecordShape<ShopSheetKind> {
    static constexpr RecordKind kind = RecordKind::shop_sheet_kind;
    template <typename Field, typename Record>
    static void visit(Field&& field, Record& record) {
        RODWAY_FIELD(word);
        RODWAY_FIELD(title);
        RODWAY_FIELD(note);
    }
};

template <>
struct RecordShape<ShopQuantity> {
    static constexpr RecordKind kind = RecordKind::shop_quantity;
    template <typename Field, typename Record>
    static void visit(Field&& field, Record& record) {
        RODWAY_FIELD(sheet_kind_id);
        RODWAY_FIELD(word);
        RODWAY_FIELD(title);
        RODWAY_FIELD(form);
        RODWAY_FIELD(unit);
        RODWAY_FIELD(positions);
    }
};

template <>
struct RecordShape<ShopPlan> {
    static constexpr RecordKind kind = RecordKind::shop_plan;
    template <typename Field, typename Record>
    static void visit(Field&& field, Record& record) {
        RODWAY_FIELD(word);
        RODWAY_FIELD(title);
        RODWAY_FIELD(content);
        RODWAY_FIELD(note);
    }
};

template <>
struct RecordShape<KnownEngine> {
    static constexpr RecordKind kind = RecordKind::known_engine;
    template <typename Field, typename Record>
    static void visit(Field&& field, Record& record) {
        RODWAY_FIELD(name);
        RODWAY_FIELD(version);
        RODWAY_FIELD(measured_by);
        RODWAY_FIELD(measured_on);
        RODWAY_FIELD(note);
    }
};

template <>
struct RecordShape<Person> {
    static constexpr RecordKind kind = RecordKind::person;
    template <typename Field, typename Record>
    static void visit(Field&& field, Record& record) {
        RODWAY_FIELD(name);
        RODWAY_FIELD(initials);
        RODWAY_FIELD(role);
        RODWAY_FIELD(left);
        RODWAY_FIELD(note);
    }
};

template <>
struct RecordShape<Customer> {
    static constexpr RecordKind kind = RecordKind::customer;
    template <typename Field, typename Record>
    static void visit(Field&& field, Record& record) {
        RODWAY_FIELD(name);
        RODWAY_FIELD(phone);
        RODWAY_FIELD(email);
        RODWAY_FIELD(address);
        RODWAY_FIELD(note);
        RODWAY_FIELD(erased);
    }
};

template <>
struct RecordShape<Instrument> {
    static constexpr RecordKind kind = RecordKind::instrument;
    template <typename Field, typename Record>
    static void visit(Field&& field, Record& record) {
        RODWAY_FIELD(name);
        RODWAY_FIELD(measures);
        RODWAY_FIELD(resolution);
        RODWAY_FIELD(serial_number);
        RODWAY_FIELD(calibrated);
        RODWAY_FIELD(calibration_due);
        RODWAY_FIELD(retired);
        RODWAY_FIELD(note);
    }
};

template <>
struct RecordShape<Product> {
    static constexpr RecordKind kind = RecordKind::product;
    template <typename Field, typename Record>
    static void visit(Field&& field, Record& record) {
        RODWAY_FIELD(name);
        RODWAY_FIELD(purpose);
        RODWAY_FIELD(handling_minutes);
        RODWAY_FIELD(full_minutes);
        RODWAY_FIELD(note);
    }
};

template <>
struct RecordShape<Build> {
    static constexpr RecordKind kind = RecordKind::build;
    template <typename Field, typename Record>
    static void visit(Field&& field, Record& record) {
        RODWAY_FIELD(name);
        RODWAY_FIELD(customer);
        RODWAY_FIELD(engine);
        RODWAY_FIELD(promised);
        RODWAY_FIELD(note);
        RODWAY_FIELD(archived);
        RODWAY_FIELD(customer_id);
        RODWAY_FIELD(job_number);
        RODWAY_FIELD(use);
        RODWAY_FIELD(fuel);
        RODWAY_FIELD(speed_range);
        RODWAY_FIELD(target_power);
        RODWAY_FIELD(scope);
        RODWAY_FIELD(exclusions);
        RODWAY_FIELD(state);
        RODWAY_FIELD(terms);
        RODWAY_FIELD(plan);
    }
};

template <>
struct RecordShape<CastingNumber> {
    static constexpr RecordKind kind = RecordKind::casting_number;
    template <typename Field, typename Record>
    static void visit(Field&& field, Record& record) {
        RODWAY_FIELD(build_id);
        RODWAY_FIELD(position);
        RODWAY_FIELD(number);
        RODWAY_FIELD(date_code);
        RODWAY_FIELD(note);
    }
};

template <>
struct RecordShape<Promise> {
    static constexpr RecordKind kind = RecordKind::promise;
    template <typename Field, typename Record>
    static void visit(Field&& field, Record& record) {
        RODWAY_FIELD(build_id);
        RODWAY_FIELD(promised);
        RODWAY_FIELD(reason);
        RODWAY_FIELD(told_at);
    }
};

template <>
struct RecordShape<Visit> {
    static constexpr RecordKind kind = RecordKind::visit;
    template <typename Field, typename Record>
    static void visit(Field&& field, Record& record) {
        RODWAY_FIELD(build_id);
        RODWAY_FIELD(visited);
        RODWAY_FIELD(reason);
        RODWAY_FIELD(found);
        RODWAY_FIELD(done);
    }
};

template <>
struct RecordShape<HandOff> {
    static constexpr RecordKind kind = RecordKind::hand_off;
    template <typename Field, typename Record>
    static void visit(Field&& field, Record& record) {
        RODWAY_FIELD(build_id);
        RODWAY_FIELD(version);
        RODWAY_FIELD(book_digest);
        RODWAY_FIELD(history_head);
        RODWAY_FIELD(program_version);
        RODWAY_FIELD(given_to);
        RODWAY_FIELD(given_at);
        RODWAY_FIELD(settings);
        RODWAY_FIELD(service_dates);
        RODWAY_FIELD(signature);
        RODWAY_FIELD(note);
    }
};

template <>
struct RecordShape<SetUpRecord> {
    static constexpr RecordKind kind = RecordKind::set_up;
    template <typename Field, typename Record>
    static void visit(Field&& field, Record& record) {
        RODWAY_FIELD(build_id);
        RODWAY_FIELD(name);
    }
};

template <>
struct RecordShape<Stage> {
    static constexpr RecordKind kind = RecordKind::stage;
    template <typename Field, typename Record>
    static void visit(Field&& field, Record& record) {
        RODWAY_FIELD(build_id);
        RODWAY_FIELD(ordinal);
        RODWAY_FIELD(title);
        RODWAY_FIELD(caution);
        RODWAY_FIELD(plan_item);
    }
};

template <>
struct RecordShape<Step> {
    static constexpr RecordKind kind = RecordKind::step;
    template <typename Field, typename Record>
    static void visit(Field&& field, Record& record) {
        RODWAY_FIELD(stage_id);
        RODWAY_FIELD(ordinal);
        RODWAY_FIELD(title);
        RODWAY_FIELD(ticked_by);
        RODWAY_FIELD(ticked_at);
        RODWAY_FIELD(detail);
        RODWAY_FIELD(caution);
        RODWAY_FIELD(sheet_kind);
        RODWAY_FIELD(not_needed);
        RODWAY_FIELD(plan_item);
        RODWAY_FIELD(part_roles);
    }
};

template <>
struct RecordShape<Gate> {
    static constexpr RecordKind kind = RecordKind::gate;
    template <typename Field, typename Record>
    static void visit(Field&& field, Record& record) {
        RODWAY_FIELD(stage_id);
        RODWAY_FIELD(ordinal);
        RODWAY_FIELD(title);
        RODWAY_FIELD(needs);
        RODWAY_FIELD(plan_item);
    }
};

template <>
struct RecordShape<Waiver> {
    static constexpr RecordKind kind = RecordKind::waiver;
    template <typename Field, typename Record>
    static void visit(Field&& field, Record& record) {
        RODWAY_FIELD(build_id);
        RODWAY_FIELD(gate_id);
        RODWAY_FIELD(subject);
        RODWAY_FIELD(reason);
        RODWAY_FIELD(customer_told);
        RODWAY_FIELD(waived_by);
        RODWAY_FIELD(waived_at);
        RODWAY_FIELD(until);
        RODWAY_FIELD(hold);
    }
};

template <>
struct RecordShape<Cure> {
    static constexpr RecordKind kind = RecordKind::cure;
    template <typename Field, typename Record>
    static void visit(Field&& field, Record& record) {
        RODWAY_FIELD(build_id);
        RODWAY_FIELD(product_id);
        RODWAY_FIELD(step_id);
        RODWAY_FIELD(place);
        RODWAY_FIELD(handling_minutes);
        RODWAY_FIELD(full_minutes);
        RODWAY_FIELD(applied_by);
        RODWAY_FIELD(applied_at);
        RODWAY_FIELD(ended);
        RODWAY_FIELD(note);
    }
};

template <>
struct RecordShape<OpenItem> {
    static constexpr RecordKind kind = RecordKind::open_item;
    template <typename Field, typename Record>
    static void visit(Field&& field, Record& record) {
        RODWAY_FIELD(build_id);
        RODWAY_FIELD(step_id);
        RODWAY_FIELD(gate_id);
        RODWAY_FIELD(kind);
        RODWAY_FIELD(title);
        RODWAY_FIELD(detail);
        RODWAY_FIELD(position);
        RODWAY_FIELD(if_it_goes_wrong);
        RODWAY_FIELD(customer_told);
        RODWAY_FIELD(due);
        RODWAY_FIELD(opened_by);
        RODWAY_FIELD(opened_at);
        RODWAY_FIELD(closed_by);
        RODWAY_FIELD(closed_at);
        RODWAY_FIELD(outcome);
        RODWAY_FIELD(part_id);
    }
};

template <>
struct RecordShape<Decision> {
    static constexpr RecordKind kind = RecordKind::decision;
    template <typename Field, typename Record>
    static void visit(Field&& field, Record& record) {
        RODWAY_FIELD(build_id);
        RODWAY_FIELD(question);
        RODWAY_FIELD(choice);
        RODWAY_FIELD(reason);
        RODWAY_FIELD(decided_by);
        RODWAY_FIELD(decided_at);
    }
};

template <>
struct RecordShape<Approval> {
    static constexpr RecordKind kind = RecordKind::approval;
    template <typename Field, typename Record>
    static void visit(Field&& field, Record& record) {
        RODWAY_FIELD(build_id);
        RODWAY_FIELD(subject);
        RODWAY_FIELD(amount);
        RODWAY_FIELD(answer);
        RODWAY_FIELD(by_whom);
        RODWAY_FIELD(manner);
        RODWAY_FIELD(asked_at);
        RODWAY_FIELD(answered_at);
        RODWAY_FIELD(note);
    }
};

template <>
struct RecordShape<WorkedTime> {
    static constexpr RecordKind kind = RecordKind::worked_time;
    template <typename Field, typename Record>
    static void visit(Field&& field, Record& record) {
        RODWAY_FIELD(build_id);
        RODWAY_FIELD(person_id);
        RODWAY_FIELD(day);
        RODWAY_FIELD(minutes);
        RODWAY_FIELD(work);
    }
};

template <>
struct RecordShape<AccountLine> {
    static constexpr RecordKind kind = RecordKind::account_line;
    template <typename Field, typename Record>
    static void visit(Field&& field, Record& record) {
        RODWAY_FIELD(build_id);
        RODWAY_FIELD(approval_id);
        RODWAY_FIELD(paper);
        RODWAY_FIELD(ordinal);
        RODWAY_FIELD(text);
        RODWAY_FIELD(amount);
        RODWAY_FIELD(dated);
    }
};

template <>
struct RecordShape<PartRecord> {
    static constexpr RecordKind kind = RecordKind::part;
    template <typename Field, typename Record>
    static void visit(Field&& field, Record& record) {
        RODWAY_FIELD(build_id);
        RODWAY_FIELD(step_id);
        RODWAY_FIELD(replaces_id);
        RODWAY_FIELD(item);
        RODWAY_FIELD(size);
        RODWAY_FIELD(marking);
        RODWAY_FIELD(count);
        RODWAY_FIELD(position);
        RODWAY_FIELD(owner);
        RODWAY_FIELD(supplier);
        RODWAY_FIELD(order_number);
        RODWAY_FIELD(cost);
        RODWAY_FIELD(weight);
        RODWAY_FIELD(needed);
        RODWAY_FIELD(ordered);
        RODWAY_FIELD(promised);
        RODWAY_FIELD(received);
        RODWAY_FIELD(measured);
        RODWAY_FIELD(fitted);
        RODWAY_FIELD(returned);
        RODWAY_FIELD(kept_until);
        RODWAY_FIELD(failed);
        RODWAY_FIELD(note);
        RODWAY_FIELD(role);
        RODWAY_FIELD(temporary);
        RODWAY_FIELD(condition);
        RODWAY_FIELD(thread);
        RODWAY_FIELD(length);
        RODWAY_FIELD(drive);
        RODWAY_FIELD(lubricant);
        RODWAY_FIELD(tightening);
    }
};

template <>
struct RecordShape<Sheet> {
    static constexpr RecordKind kind = RecordKind::sheet;
    template <typename Field, typename Record>
    static void visit(Field&& field, Record& record) {
        RODWAY_FIELD(build_id);
        RODWAY_FIELD(step_id);
        RODWAY_FIELD(kind);
        RODWAY_FIELD(title);
        RODWAY_FIELD(opened_at);
        RODWAY_FIELD(note);
    }
};

template <>
struct RecordShape<LimitRecord> {
    static constexpr RecordKind kind = RecordKind::limit;
    template <typename Field, typename Record>
    static void visit(Field&& field, Record& record) {
        RODWAY_FIELD(build_id);
        RODWAY_FIELD(quantity);
        RODWAY_FIELD(position);
        RODWAY_FIELD(low);
        RODWAY_FIELD(high);
        RODWAY_FIELD(unit);
        RODWAY_FIELD(source);
        RODWAY_FIELD(note);
        RODWAY_FIELD(serviceable);
    }
};

template <>
struct RecordShape<Reading> {
    static constexpr RecordKind kind = RecordKind::reading;
    template <typename Field, typename Record>
    static void visit(Field&& field, Record& record) {
        RODWAY_FIELD(build_id);
        RODWAY_FIELD(set_up_id);
        RODWAY_FIELD(quantity);
        RODWAY_FIELD(position);
        RODWAY_FIELD(text);
        RODWAY_FIELD(unit);
        RODWAY_FIELD(status);
        RODWAY_FIELD(taken_by);
        RODWAY_FIELD(taken_at);
        RODWAY_FIELD(sheet_id);
        RODWAY_FIELD(instrument_id);
        RODWAY_FIELD(resolution);
        RODWAY_FIELD(method);
        RODWAY_FIELD(temperature);
        RODWAY_FIELD(note);
    }
};

template <>
struct RecordShape<SignOff> {
    static constexpr RecordKind kind = RecordKind::sign_off;
    template <typename Field, typename Record>
    static void visit(Field&& field, Record& record) {
        RODWAY_FIELD(build_id);
        RODWAY_FIELD(gate_id);
        RODWAY_FIELD(step_id);
        RODWAY_FIELD(reading_id);
        RODWAY_FIELD(subject);
        RODWAY_FIELD(value);
        RODWAY_FIELD(limit_text);
        RODWAY_FIELD(limit_source);
        RODWAY_FIELD(verdict);
        RODWAY_FIELD(program_version);
        RODWAY_FIELD(signed_by);
        RODWAY_FIELD(signed_at);
        RODWAY_FIELD(note);
        RODWAY_FIELD(withdrawn_by);
        RODWAY_FIELD(withdrawn_at);
        RODWAY_FIELD(withdrawn_reason);
        RODWAY_FIELD(stage_id);
    }
};

template <>
struct RecordShape<Note> {
    static constexpr RecordKind kind = RecordKind::note;
    template <typename Field, typename Record>
    static void visit(Field&& field, Record& record) {
        RODWAY_FIELD(build_id);
        RODWAY_FIELD(stage_id);
        RODWAY_FIELD(step_id);
        RODWAY_FIELD(sheet_id);
        RODWAY_FIELD(position);
        RODWAY_FIELD(text);
        RODWAY_FIELD(in_book);
        RODWAY_FIELD(written_by);
        RODWAY_FIELD(written_at);
        RODWAY_FIELD(part_id);
    }
};

template <>
struct RecordShape<Photo> {
    static constexpr RecordKind kind = RecordKind::photo;
    template <typename Field, typename Record>
    static void visit(Field&& field, Record& record) {
        RODWAY_FIELD(build_id);
        RODWAY_FIELD(stage_id);
        RODWAY_FIELD(digest);
        RODWAY_FIELD(file_name);
        RODWAY_FIELD(caption);
        RODWAY_FIELD(added_at);
        RODWAY_FIELD(step_id);
        RODWAY_FIELD(reading_id);
        RODWAY_FIELD(position);
        RODWAY_FIELD(in_book);
        RODWAY_FIELD(added_by);
        RODWAY_FIELD(taken_at);
        RODWAY_FIELD(part_id);
        RODWAY_FIELD(sheet_id);
    }
};

#undef RODWAY_FIELD

} // namespace rodway
