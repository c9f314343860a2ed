#pragma once

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <QApplication>
#include <QLineEdit>
#include <QSettings>
#include <QTabBar>
#include <QTableWidgetItem>
#include <QTemporaryDir>
#include <QTest>
#include <memory>
#include <stdexcept>
#include <string>
#include <vector>

#include "app/sheets/sheet_table.h"
#include "app/sheets/sheets_page.h"
#include "app/window/main_window.h"
#include "db/reading_store.h"

namespace rodway {

/// The real window on a demo shop, its first build open at the sheets.
class OpenSheets : public ::testing::Test {
  protected:
    void SetUp() override {
        ASSERT_TRUE(folder_.isValid());
        QSettings().clear();
        window_ = std::make_unique<MainWindow>();
        window_->show();
        ASSERT_TRUE(window_->make_shop(folder_.filePath("shop.rodway"), true));
        window_->open_build(1);
        window_->go_to_sheets();
        ASSERT_TRUE(QTest::qWaitForWindowActive(window_.get()));
    }
    SheetsPage& page() { return window_->sheets(); }
    SheetTable& table() { return page().table(); }

    /// Keys as a person presses them, one after the other, wherever the focus is.
    void press(const QString& keys) {
        table().setFocus();
        for (const QChar key : keys) {
            ++pressed_;
            QWidget* target = QApplication::focusWidget();
            if (key == '\n') {
                QTest::keyClick(target, Qt::Key_Return);
            } else {
                QTest::keyClick(target, key.toLatin1());
            }
        }
    }
    std::vector<std::string> kept(const char* quantity) {
        std::vector<std::string> texts;
        const auto all = readings(window_->session()->shop(), 1);
        EXPECT_TRUE(all.ok());
        for (const Reading& reading : *all) {
            if (reading.quantity == quantity) {
                texts.push_back(reading.position + " " + reading.text);
            }
        }
        return texts;
    }
    /// Into a line, keys one after the other.
    void type_into(QLineEdit& line, const QString& keys) {
        line.setFocus();
        line.clear();
        for (const QChar key : keys) {
            if (key == '\n') {
                QTest::keyClick(&line, Qt::Key_Return);
            } else {
                QTest::keyClick(&line, key.toLatin1());
            }
        }
    }
    QTabBar& places() {
        for (auto* tabs : page().findChildren<QTabBar*>()) {
            if (tabs->accessibleName() == "Where it is measured") {
                return *tabs;
            }
        }
        throw std::runtime_error("no tabs of places");
    }
    void open_place(const QString& heading) {
        QTabBar& tabs = places();
        for (int tab = 0; tab < tabs.count(); ++tab) {
            if (tabs.tabText(tab) == heading) {
                tabs.setCurrentIndex(tab);
            }
        }
        ASSERT_EQ(tabs.tabText(tabs.currentIndex()), heading);
    }
    QString text_at(int row, int column) { return table().item(row, column)->text(); }

    QTemporaryDir folder_;
    std::unique_ptr<MainWindow> window_;
    int pressed_ = 0;
};

} // namespace rodway
