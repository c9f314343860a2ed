#pragma once

// SQL stays in `db`: nothing outside it includes this header.

#include <QSqlDatabase>
#include <QSqlError>
#include <QSqlQuery>
#include <QString>
#include <QVariant>
#include <chrono>
#include <cstdint>
#include <functional>
#include <optional>
#include <string>

#include "core/base/result.h"

namespace rodway {

/// One row of an answer; columns are counted from 0.
class Row {
  public:
    explicit Row(const QSqlQuery& query) : query_(query) {}

    [[nodiscard]] std::int64_t integer(int column) const;
    [[nodiscard]] std::optional<std::int64_t> optional_integer(int column) const;
    /// NULL reads as an empty text. An integer reads as its decimal digits.
    [[nodiscard]] std::string text(int column) const;
    [[nodiscard]] std::optional<std::string> optional_text(int column) const;
    /// Empty for NULL.
    [[nodiscard]] QByteArray bytes(int column) const;

  private:
    const QSqlQuery& query_;
};

/// One SQLite connection, for the thread that opened it. Every query is finished when its call
/// returns, for a query left open pins the write-ahead log.
/// Errors of all calls: locked_file, cannot_write, cannot_read, foreign_file, damaged_file, and
/// wrong_type where a table's rules refuse; `field` the file, `value` a token or SQLite's words.
class Connection {
  public:
    /// `path`: UTF-8, absolute. `patience`: how long to wait for another writer.
    static Result<Connection> open_existing(const std::string& path,
                                            std::chrono::milliseconds patience);
    static Result<Connection> create_new(const std::string& path);
    /// Keeps every other program out until it is closed; its log is played in and gone, a journal
    /// takes its place. Errors: locked_file if any program has it open.
    static Result<Connection> open_alone(const std::string& path,
                                         std::chrono::milliseconds patience);

    /// Through which nothing is written. `told_as`: the path that its errors name, and `path()`.
    /// `nobody_writes`: no lock is taken and no log read, for the file can't change.
    static Result<Connection> open_to_look(const std::string& path, const std::string& told_as,
                                           bool nobody_writes, std::chrono::milliseconds patience);

    Connection(Connection&& other) noexcept;
    Connection& operator=(Connection&&) = delete;
    Connection(const Connection&) = delete;
    Connection& operator=(const Connection&) = delete;
    ~Connection();

    [[nodiscard]] const std::string& path() const { return path_; }

    Result<Done> run(const QString& sql, const QVariantList& values = {});
    Result<Done> each(const QString& sql, const QVariantList& values,
                      const std::function<void(const Row&)>& take);
    /// First column of the first row; an invalid QVariant if there is no row.
    Result<QVariant> single(const QString& sql, const QVariantList& values = {});

  private:
    Connection(QString name, std::string path);
    static Result<Connection> open(const std::string& path, const std::string& told_as,
                                   const char* mode, std::chrono::milliseconds patience);
    [[nodiscard]] Error error_of(const QSqlError& error) const;

    QString name_; ///< Qt's name of the connection; empty after a move
    std::string path_;
};

/// Rolls back unless committed.
class Transaction {
  public:
    enum class Kind { read, write };

    /// A write transaction takes the write lock at once: one that began with a read could not be
    /// helped by waiting when a second writer came between.
    static Result<Transaction> begin(Connection& connection, Kind kind);

    Transaction(Transaction&& other) noexcept;
    Transaction& operator=(Transaction&&) = delete;
    Transaction(const Transaction&) = delete;
    Transaction& operator=(const Transaction&) = delete;
    ~Transaction();

    Result<Done> commit();

  private:
    explicit Transaction(Connection& connection) : connection_(&connection) {}
    Connection* connection_; ///< null when there is nothing to roll back
};

/// UTF-8 text as Qt has it. `not_utf8` for text that would not come back from the file byte for
/// byte: other encodings, a NUL, a byte order mark.
[[nodiscard]] Result<QString> storable_text(const std::string& text);

/// For text that has passed `storable_text` or came out of the file. Nothing becomes NULL.
[[nodiscard]] QVariant to_variant(const std::optional<std::string>& text);

} // namespace rodway
