package tickover.console;

import java.util.List;
import javafx.scene.Node;
import javafx.scene.layout.VBox;
import tickover.console.model.LiveState;

/** What is wrong with the signal, in sentences; the first says that nothing is, if so. */
final class QualityLines extends VBox {
    private final boolean limits;
    private List<String> shown = List.of();

    /** With the sentence about the mount's limit, which comes last, or without. */
    QualityLines(boolean limits) {
        super(2);
        this.limits = limits;
    }

    void show(LiveState state) {
        if (state.quality().equals(shown)) {
            return;
        }
        shown = state.quality();
        int last = shown.size() - 1;
        getChildren().clear();
        for (int i = 0; i <= (limits ? last : last - 1); i++) {
            getChildren().add(line(shown.get(i), state.sound(), i == last));
        }
    }

    private static Node line(String sentence, boolean sound, boolean limit) {
        if (limit) {
            return Controls.label(sentence, "soft");
        }
        return sound
                ? Controls.label("✓  " + sentence, "good-words")
                : Controls.label("!  " + sentence, "complaint");
    }
}
