package tickover.console.model;

import java.util.concurrent.Callable;
import java.util.function.Consumer;

/** Takes slow work off the screen's thread, and brings its outcome back to it. */
public interface Errands {
    /**
     * Sends someone off.
     *
     * @param work what takes time: files, the log, computing
     * @param done hears the outcome, on the screen's thread
     * @param failed hears why it did not work, as one sentence, on the screen's thread
     * @param <T> kind of outcome
     */
    <T> void send(Callable<T> work, Consumer<T> done, Consumer<String> failed);
}
