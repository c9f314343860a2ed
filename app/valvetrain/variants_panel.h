#pragma once

#include <optional>
#include <vector>

#include "app/edit_stack/shop_session.h"
#include "app/valvetrain/train_panel.h"
#include "app/work/kept_variants.h"
#include "app/work/newest_request.h"

class QLabel;
class QLineEdit;
class QPushButton;

namespace rodway {

class RowTable;
class WorkBar;

/// What was thought of for this build, side by side: what each variant gains and loses, valve by
/// valve and wall by wall, and why one was chosen. One may be tried, or taken over into the build.
class VariantsPanel : public TrainPanel {
    Q_OBJECT

  public:
    explicit VariantsPanel(ValvetrainModel* model, QWidget* parent = nullptr);

    void set_build(ShopSession* session, std::int64_t build_id);
    /// Goes to the box for the name of what is being tried.
    void begin_to_keep();
    [[nodiscard]] bool busy() const { return request_.busy(); }
    /// What is shown; nothing while it is being worked out.
    [[nodiscard]] const std::optional<VariantTable>& compared() const { return compared_; }

  signals:
    void failed(const QString& text);
    void said(const QString& text);
    /// Puts a variant into the what-if boxes.
    void try_wanted(const rodway::Variant& variant);

  protected:
    void show_valve() override;

  private:
    struct Compared {
        Result<VariantTable> table;
    };
    /// A row of the list: one as it is being tried, or one that is kept.
    struct Row {
        QString name;
        std::optional<NamedVariant> variant;
        std::optional<KeptVariant> kept;
        QString trouble;        ///< why a kept one means nothing here
        std::size_t column = 0; ///< of the comparison, if there is a variant
    };
    void make_rows();
    void ask();
    void show_list();
    void show_compared();
    [[nodiscard]] QString about_text(const Row& row) const;
    [[nodiscard]] const Row* row_in_hand() const;
    void keep();
    void drop();
    void take_over();
    void complain(const Error& error);

    ShopSession* session_ = nullptr;
    std::int64_t build_id_ = 0;
    RowTable* list_;
    QLineEdit* name_;
    QLineEdit* why_;
    QLabel* trouble_;
    QPushButton* keep_;
    QPushButton* try_;
    QPushButton* take_over_;
    QPushButton* drop_;
    WorkBar* work_;
    QLabel* about_;
    RowTable* valves_;
    std::vector<Row> rows_;
    std::optional<VariantTable> compared_;
    NewestRequest request_;
};

} // namespace rodway
