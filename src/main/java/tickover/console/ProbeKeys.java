package tickover.console;

import javafx.scene.Node;
import javafx.scene.control.TextInputControl;
import javafx.scene.input.KeyCode;
import javafx.scene.input.KeyEvent;

/** The space bar, or a foot switch that sends Page Down or F12, is the probe's button. */
final class ProbeKeys {
    private ProbeKeys() {}

    /** Whether a key is the probe's button; a space that is being typed is not. */
    static boolean isPress(KeyEvent e, Node screen) {
        boolean typing = screen.getScene().getFocusOwner() instanceof TextInputControl;
        return (e.getCode() == KeyCode.SPACE && !typing)
                || e.getCode() == KeyCode.PAGE_DOWN
                || e.getCode() == KeyCode.F12;
    }
}
