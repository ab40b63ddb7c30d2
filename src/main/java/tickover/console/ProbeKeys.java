package tickover.console;

import javafx.scene.Node;
import javafx.scene.Scene;
import javafx.scene.control.TextInputControl;
import javafx.scene.input.KeyCode;
import javafx.scene.input.KeyEvent;

/** The space bar, or a foot switch that sends Page Down or F12, is the probe's button. */
final class ProbeKeys {
    private ProbeKeys() {}

    /** Whether what is typed goes into a field. A screen behind the keys' page has no field. */
    static boolean isTyping(Node screen) {
        Scene scene = screen.getScene();
        return scene != null && scene.getFocusOwner() instanceof TextInputControl;
    }

    /** Whether a key is the probe's button; a space that is being typed is not. */
    static boolean isPress(KeyEvent e, Node screen) {
        return (e.getCode() == KeyCode.SPACE && !isTyping(screen))
                || e.getCode() == KeyCode.PAGE_DOWN
                || e.getCode() == KeyCode.F12;
    }
}
