#pragma once

#include <QWidget>
#include <optional>

#include "app/edit_stack/shop_session.h"
#include "core/build/records.h"

class QComboBox;
class QLabel;
class QPushButton;

namespace rodway {

class TypedForm;

/// The first step of describing an engine: how its cylinders and valves are laid out; or an engine
/// that the shop knows, to begin with.
class OutlinePanel : public QWidget {
    Q_OBJECT

  public:
    explicit OutlinePanel(QWidget* parent = nullptr);

    void take(ShopSession* session, std::int64_t build_id,
              const std::optional<SetUpRecord>& set_up);
    /// Goes to the box of a field of the set-up; false if it isn't here.
    bool go_to(const std::string& path);
    void go_to_first();

  signals:
    /// The layout is kept, or a known engine taken.
    void finished();
    void failed(const QString& text);
    void said(const QString& text);

  private:
    void show_rows();
    void fill();
    void keep();
    void begin_from_known();
    void offer_known();

    ShopSession* session_ = nullptr;
    std::int64_t build_id_ = 0;
    std::optional<SetUpRecord> set_up_;
    std::optional<SetUpFields> filled_from_;
    std::vector<KnownEngine> known_;
    QWidget* known_row_;
    QComboBox* known_box_;
    TypedForm* form_;
    QPushButton* keep_;
};

} // namespace rodway
