package dev.splicebook.web;

import java.io.IOException;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.util.concurrent.atomic.AtomicBoolean;
import org.apache.catalina.connector.Request;
import org.apache.catalina.connector.Response;
import org.apache.catalina.valves.ErrorReportValve;
import org.apache.coyote.ActionCode;
import org.jspecify.annotations.Nullable;

/** Answers what Tomcat refuses before any filter sees it, in place of Tomcat's page. */
final class ProblemValve extends ErrorReportValve {

    @Override
    protected void report(Request request, Response response, @Nullable Throwable failure) {
        int status = response.getStatus();
        if (status < 400 || response.getContentWritten() > 0 || !response.setErrorReported()) {
            return;
        }
        AtomicBoolean writable = new AtomicBoolean();
        response.getCoyoteResponse().action(ActionCode.IS_IO_ALLOWED, writable);
        if (!writable.get()) {
            return;
        }
        ProblemException problem = ProblemErrorController.ofStatus(status);
        try {
            ProblemWriter.prepare(request, response, problem);
            // the status line and the body say the same
            String body = ProblemWriter.body(request, problem);
            response.setCharacterEncoding(StandardCharsets.UTF_8.name());
            Writer writer = response.getReporter();
            if (writer != null) {
                writer.write(body);
                response.finishResponse();
            }
        } catch (IOException gone) {
            container.getLogger().debug("the caller has gone", gone);
        }
    }
}
