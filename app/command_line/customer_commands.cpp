#include <QCoreApplication>
#include <QJsonArray>

#include "app/command_line/build_commands.h"
#include "app/command_line/commands.h"
#include "app/command_line/output.h"
#include "app/edit_stack/shop_session.h"
#include "app/work/clock.h"
#include "app/work/shop_copies.h"
#include "db/build_records.h"
#include "db/erasure.h"
#include "db/record_tables.h"

namespace rodway {
namespace {

struct CustomerCommands {
    Q_DECLARE_TR_FUNCTIONS(CustomerCommands)
};

/// What the options of these commands are read into; it lives as long as the program's parser.
struct CustomerOptions {
    std::string shop;
    std::string who = qEnvironmentVariable("USER", "shop").toStdString();
    std::string build;
    std::string place;
    Customer customer;
    bool delete_backups = false;
    bool json = false;
};

QString text(const std::string& utf8) {
    return QString::fromStdString(utf8);
}

/// The edits that make a build the customer's; it takes his name if it has none.
Result<std::vector<Edit>> edits_to_link(ShopFile& shop, const CustomerOptions& options,
                                        std::int64_t customer_id) {
    if (options.build.empty()) return std::vector<Edit>();
    const auto build = find_build(shop, text(options.build));
    if (!build) return build.error();
    Build linked = *build;
    linked.customer_id = customer_id;
    if (linked.customer.empty()) linked.customer = options.customer.name;
    return edits_to_change(*build, linked);
}

ExitCode add_customer(const CustomerOptions& options) {
    auto opened = ShopFile::open(options.shop);
    if (!opened) return refuse(opened.error(), text(options.shop));
    ShopSession session(std::move(opened).value(), text(options.who));
    std::optional<Error> trouble;
    const auto id = session.create(
        RecordKind::customer,
        [&](std::int64_t customer_id) {
            Customer customer = options.customer;
            customer.id = customer_id;
            std::vector<Edit> edits = edits_to_create(customer);
            const auto link = edits_to_link(session.shop(), options, customer_id);
            if (!link) {
                trouble = link.error();
                return std::vector<Edit>(); // which is refused: nothing is written
            }
            edits.insert(edits.end(), link->begin(), link->end());
            return edits;
        },
        CustomerCommands::tr("new customer"));
    if (trouble) return refuse(*trouble, text(options.shop));
    if (!id) return refuse(id.error(), text(options.shop));
    if (options.json) {
        print_json({{"format", "rodway-add-customer"},
                    {"version", 1},
                    {"customer", static_cast<qint64>(*id)}});
    } else {
        print(CustomerCommands::tr("Added customer %1.").arg(*id));
    }
    return ExitCode::done;
}

ExitCode list_customers(const CustomerOptions& options) {
    auto opened = ShopFile::open_to_look(options.shop);
    if (!opened) return refuse(opened.error(), text(options.shop));
    ShopFile shop = std::move(opened).value();
    const auto customers = load_records<Customer>(shop, shop_wide);
    if (!customers) return refuse(customers.error(), text(options.shop));
    QJsonArray rows;
    for (const Customer& customer : *customers) {
        const auto or_null = [](const std::optional<std::string>& value) {
            return value ? QJsonValue(text(*value)) : QJsonValue();
        };
        rows.append(QJsonObject{{"id", static_cast<qint64>(customer.id)},
                                {"name", text(customer.name)},
                                {"phone", or_null(customer.phone)},
                                {"email", or_null(customer.email)},
                                {"address", or_null(customer.address)},
                                {"note", or_null(customer.note)},
                                {"erased", or_null(customer.erased)}});
        if (options.json) continue;
        print(customer.erased
                  ? CustomerCommands::tr("%1  erased on %2")
                        .arg(QString::number(customer.id), text(*customer.erased).left(10))
                  : QStringLiteral("%1  %2  %3")
                        .arg(QString::number(customer.id), text(customer.name),
                             text(customer.phone.value_or(""))));
    }
    if (options.json) {
        print_json({{"format", "rodway-customers"}, {"version", 1}, {"customers", rows}});
    } else if (customers->empty()) {
        print(CustomerCommands::tr("No customers yet. Add one with: rodway add-customer"));
    }
    return ExitCode::done;
}

QJsonObject erasure_json(const Erasure& erasure, const QStringList& copies) {
    QJsonArray builds;
    for (const std::int64_t build : erasure.builds) builds.append(static_cast<qint64>(build));
    QJsonArray named;
    for (const TextToErase& still : erasure.still_named) {
        named.append(QJsonObject{{"kind", text(std::string(table_of(still.record.kind).word))},
                                 {"id", static_cast<qint64>(still.record.id)},
                                 {"field", text(still.field)}});
    }
    return {{"format", "rodway-erase-customer"},
            {"version", 1},
            {"builds", builds},
            {"books_deleted", erasure.books_deleted},
            {"books_left", array_of(erasure.books_left)},
            {"still_named", named},
            {"file_cleared", erasure.file_cleared},
            {"copies_that_still_hold_it", QJsonArray::fromStringList(copies)}};
}

void print_erasure(const Erasure& erasure, const QStringList& copies) {
    print(CustomerCommands::tr("Erased from the records and the history."));
    if (!erasure.file_cleared) {
        print(
            CustomerCommands::tr("Traces may stay in the file's free space while another window "
                                 "has it open. Close that and erase again."));
    }
    for (const std::int64_t build : erasure.builds) {
        print(CustomerCommands::tr("Books given away of build %1 still name the customer.")
                  .arg(build));
    }
    if (erasure.books_deleted > 0) {
        print(CustomerCommands::tr("Books of them that were kept here and are deleted: %1")
                  .arg(erasure.books_deleted));
    }
    for (const std::string& book : erasure.books_left) {
        print(CustomerCommands::tr("This book could not be deleted: %1").arg(text(book)));
    }
    for (const TextToErase& still : erasure.still_named) {
        print(CustomerCommands::tr("Still named in: %1 %2, %3")
                  .arg(text(std::string(table_of(still.record.kind).word)).replace('_', ' '),
                       QString::number(still.record.id), text(still.field).replace('_', ' ')));
    }
    for (const QString& copy : copies) {
        print(CustomerCommands::tr("This copy still holds it: %1").arg(copy));
    }
    if (!copies.isEmpty()) {
        print(
            CustomerCommands::tr("Remove these with --delete-backups, after making a new backup; "
                                 "copies kept elsewhere are yours to find."));
    }
}

ExitCode erase(const CustomerOptions& options) {
    auto opened = ShopFile::open(options.shop);
    if (!opened) return refuse(opened.error(), text(options.shop));
    ShopFile shop = std::move(opened).value();
    const auto erasure = erase_customer(shop, options.customer.id, options.who, now_utc());
    if (!erasure) return refuse(erasure.error(), text(options.shop));
    const auto copies = copies_of_shop(options.shop, options.place);
    if (!copies) return refuse(copies.error(), text(options.shop));
    const QStringList left = options.delete_backups ? remove_copies(*copies) : *copies;
    if (options.json) {
        print_json(erasure_json(*erasure, left));
    } else {
        print_erasure(*erasure, left);
    }
    return options.delete_backups && !left.isEmpty() ? exit_code(ErrorCode::cannot_write)
                                                     : ExitCode::done;
}

} // namespace

void add_customer_commands(CLI::App& program, CommandOutcome& outcome) {
    auto options = std::make_shared<CustomerOptions>();
    const auto word = [](const QString& of) { return of.toStdString(); };
    const auto shop_option = [=](CLI::App& command) {
        command.add_option("shop", options->shop, word(CustomerCommands::tr("Shop file")))
            ->required();
        add_json_option(command, options->json);
    };

    auto* add =
        program.add_subcommand("add-customer", word(CustomerCommands::tr("Add a customer")));
    shop_option(*add);
    add->add_option("name", options->customer.name, word(CustomerCommands::tr("Name")))->required();
    add->add_option("--phone", options->customer.phone, word(CustomerCommands::tr("Telephone")));
    add->add_option("--email", options->customer.email, word(CustomerCommands::tr("Mail address")));
    add->add_option("--address", options->customer.address, word(CustomerCommands::tr("Address")));
    add->add_option("--note", options->customer.note, word(CustomerCommands::tr("Note")));
    add->add_option("--build", options->build,
                    word(CustomerCommands::tr("Number or name of a build of his")));
    add->add_option("--by", options->who, word(CustomerCommands::tr("Initials")));
    add->callback([=, &outcome] { outcome.code = add_customer(*options); });

    auto* list =
        program.add_subcommand("customers", word(CustomerCommands::tr("List a shop's customers")));
    shop_option(*list);
    list->callback([=, &outcome] { outcome.code = list_customers(*options); });

    auto* erasing = program.add_subcommand(
        "erase-customer",
        word(CustomerCommands::tr("Erase who a customer is from the records and their history; "
                                  "this can't be taken back")));
    shop_option(*erasing);
    erasing
        ->add_option("customer", options->customer.id,
                     word(CustomerCommands::tr("Number, see "
                                               "customers")))
        ->required();
    erasing->add_option("--backups", options->place,
                        word(CustomerCommands::tr("Folder that was given to back-up --to")));
    erasing->add_flag("--delete-backups", options->delete_backups,
                      word(CustomerCommands::tr("Remove every backup that still holds it")));
    erasing->add_option("--by", options->who, word(CustomerCommands::tr("Initials")));
    erasing->callback([=, &outcome] { outcome.code = erase(*options); });
}

} // namespace rodway
