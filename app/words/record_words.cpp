#include "app/words/record_words.h"

#include <QCoreApplication>

#include "app/words/sheet_words.h"

namespace rodway::words {
namespace {

struct Records {
    Q_DECLARE_TR_FUNCTIONS(Records)
};

/// The field that names a record of this kind.
const char* title_field(RecordKind kind) {
    switch (kind) {
        case RecordKind::shop_detail:
        case RecordKind::person:
        case RecordKind::customer:
        case RecordKind::instrument:
        case RecordKind::product:
        case RecordKind::known_engine:
        case RecordKind::build:
        case RecordKind::set_up:
            return "name";
        case RecordKind::shop_sheet_kind:
        case RecordKind::shop_quantity:
        case RecordKind::shop_plan:
        case RecordKind::stage:
        case RecordKind::step:
        case RecordKind::gate:
        case RecordKind::open_item:
        case RecordKind::sheet:
            return "title";
        case RecordKind::casting_number:
            return "number";
        case RecordKind::promise:
            return "promised";
        case RecordKind::visit:
            return "reason";
        case RecordKind::hand_off:
            return "given_to";
        case RecordKind::part:
            return "item";
        case RecordKind::waiver:
        case RecordKind::approval:
        case RecordKind::sign_off:
            return "subject";
        case RecordKind::cure:
            return "place";
        case RecordKind::decision:
            return "question";
        case RecordKind::worked_time:
            return "work";
        case RecordKind::account_line:
        case RecordKind::note:
            return "text";
        case RecordKind::limit:
        case RecordKind::reading:
            return "quantity";
        case RecordKind::photo:
            return "file_name";
    }
    return "";
}

} // namespace

QString record_kind(RecordKind kind) {
    switch (kind) {
        case RecordKind::shop_detail:
            return Records::tr("shop detail");
        case RecordKind::shop_sheet_kind:
            return Records::tr("own sheet");
        case RecordKind::shop_quantity:
            return Records::tr("line of an own sheet");
        case RecordKind::shop_plan:
            return Records::tr("own stage plan");
        case RecordKind::person:
            return Records::tr("person");
        case RecordKind::customer:
            return Records::tr("customer");
        case RecordKind::instrument:
            return Records::tr("instrument");
        case RecordKind::product:
            return Records::tr("product");
        case RecordKind::known_engine:
            return Records::tr("known engine");
        case RecordKind::build:
            return Records::tr("build");
        case RecordKind::casting_number:
            return Records::tr("casting number");
        case RecordKind::promise:
            return Records::tr("promised date");
        case RecordKind::visit:
            return Records::tr("visit");
        case RecordKind::hand_off:
            return Records::tr("hand-off");
        case RecordKind::set_up:
            return Records::tr("set-up");
        case RecordKind::stage:
            return Records::tr("stage");
        case RecordKind::step:
            return Records::tr("step");
        case RecordKind::gate:
            return Records::tr("gate");
        case RecordKind::part:
            return Records::tr("part");
        case RecordKind::waiver:
            return Records::tr("waiver");
        case RecordKind::cure:
            return Records::tr("cure");
        case RecordKind::open_item:
            return Records::tr("open item");
        case RecordKind::decision:
            return Records::tr("decision");
        case RecordKind::approval:
            return Records::tr("approval");
        case RecordKind::worked_time:
            return Records::tr("hours");
        case RecordKind::account_line:
            return Records::tr("account line");
        case RecordKind::sheet:
            return Records::tr("sheet");
        case RecordKind::limit:
            return Records::tr("limit");
        case RecordKind::reading:
            return Records::tr("reading");
        case RecordKind::sign_off:
            return Records::tr("sign-off");
        case RecordKind::note:
            return Records::tr("note");
        case RecordKind::photo:
            return Records::tr("photo");
    }
    return {};
}

QString record_title(RecordKind kind, const FieldTexts& fields) {
    const auto text = [&fields](const char* field) {
        const auto found = fields.find(field);
        return found == fields.end() ? QString() : QString::fromStdString(found->second);
    };
    const QString title = text(title_field(kind)).simplified();
    if (title.isEmpty() || (kind != RecordKind::reading && kind != RecordKind::limit)) {
        return title;
    }
    const QString quantity = sheet_title(title.toStdString());
    const QString position = text("position");
    return position.isEmpty() ? quantity : Records::tr("%1, %2").arg(quantity, position);
}

QString field_name(const std::string& field) {
    return QString::fromStdString(field).replace('_', ' ');
}

} // namespace rodway::words
