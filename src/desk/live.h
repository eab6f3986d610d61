// Solves the project beside the event loop: the newest request wins, nobody waits.
#pragma once

#include <QObject>
#include <QThreadPool>
#include <atomic>
#include <cstdint>
#include <functional>
#include <memory>
#include <optional>

#include "catalogue/catalogue.h"
#include "desk/solved.h"

namespace kerfdraft::desk {

class Live : public QObject {
  Q_OBJECT

 public:
  explicit Live(std::shared_ptr<const catalogue::Catalogue> catalogue, QObject* parent = nullptr);
  ~Live() override;

  /// Solves, first the state that is shown (a trial where there is one); answers come through shown(),
  /// solved() and judged(), in this order. A request that a newer one overtakes gives no more answers.
  void request(std::shared_ptr<const shop::Project> project, std::optional<shop::State> trial,
               std::size_t shown = 0);

  /// The newest answer with every state, or null before the first.
  const std::shared_ptr<const Solved>& latest() const { return latest_; }
  /// The newest answer that knows this state: where the others are still to come, they are not solved in it.
  /// Null before the first.
  const std::shared_ptr<const Solved>& of(std::size_t state) const;
  bool isBusy() const { return answered_ < asked_; }
  /// For tests: lets the event loop run until everything asked for is judged.
  void waitUntilIdle() const;

 signals:
  void shown();   ///< of() has flows and margins of the state that is shown
  void solved();  ///< latest() has flows and margins of every state
  void judged();  ///< latest() has bands and verdict too

 private:
  enum class Step { Shown, Solved, Judged };
  bool isWanted(std::uint64_t serial) const { return newest_ == serial; }
  void hand(Solved value, Step step);
  void answer(std::shared_ptr<const Solved> solved, Step step);

  std::shared_ptr<const catalogue::Catalogue> catalogue_;
  std::shared_ptr<const Solved> latest_;
  std::shared_ptr<const Solved> first_;  ///< the newest answer of all; of one state, where others are to come
  std::atomic<std::uint64_t> newest_{0};
  std::uint64_t asked_ = 0;
  std::uint64_t answered_ = 0;
  /// A verdict takes longer than the air; the next edit's air does not wait for it.
  QThreadPool solving_;
  QThreadPool judging_;
};

}  // namespace kerfdraft::desk
