package tickover.link;

import com.fazecast.jSerialComm.SerialPort;
import com.fazecast.jSerialComm.SerialPortInvalidPortException;

/** The one door to the port library, which reads its settings when it is first used. */
final class PortLibrary {
    static {
        // Its native part is unpacked into a folder that programs share unless they name their own.
        if (System.getProperty("fazecast.jSerialComm.appid") == null) {
            System.setProperty("fazecast.jSerialComm.appid", "tickover");
        }
        EndSignals.keepOver(SerialPort::getVersion);
        SerialPort.addShutdownHook(new Thread(PortsAtExit::await, "tickover-ports"));
    }

    private PortLibrary() {}

    static SerialPort[] listed() {
        return SerialPort.getCommPorts();
    }

    /**
     * Finds a port, listed or not.
     *
     * @throws LinkException if there is none of that name
     */
    static SerialPort port(String path) {
        try {
            return SerialPort.getCommPort(path);
        } catch (SerialPortInvalidPortException e) {
            throw new LinkException(
                    LinkException.Reason.NO_SUCH_PORT,
                    "there is no port "
                            + path
                            + "; plug it in, or see 'tickover ports --list' for those that are"
                            + " there",
                    e);
        }
    }
}
