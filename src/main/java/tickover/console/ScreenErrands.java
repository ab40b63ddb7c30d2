package tickover.console;

import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.function.Consumer;
import javafx.application.Platform;
import tickover.console.model.Errands;

/**
 * One thread beside the screen's, so that errands are done in the order in which they were sent.
 */
final class ScreenErrands implements Errands, AutoCloseable {
    private final ExecutorService thread =
            Executors.newSingleThreadExecutor(
                    work -> {
                        Thread t = new Thread(work, "tickover-errands");
                        t.setDaemon(true);
                        return t;
                    });

    @Override
    public <T> void send(Callable<T> work, Consumer<T> done, Consumer<String> failed) {
        thread.execute(() -> run(work, done, failed));
    }

    private static <T> void run(Callable<T> work, Consumer<T> done, Consumer<String> failed) {
        T outcome;
        try {
            outcome = work.call();
        } catch (Exception | StackOverflowError | OutOfMemoryError e) {
            // The outermost loop of this thread: what it does not tell, nobody hears of.
            String sentence = e.getMessage() == null ? e.toString() : e.getMessage();
            Platform.runLater(() -> failed.accept(sentence));
            return;
        }
        Platform.runLater(() -> done.accept(outcome));
    }

    /** Waits for nothing: what was sent is either in the log or it is not. */
    @Override
    public void close() {
        thread.shutdown();
    }
}
