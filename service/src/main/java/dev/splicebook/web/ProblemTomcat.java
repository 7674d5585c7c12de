package dev.splicebook.web;

import org.apache.catalina.Host;
import org.apache.catalina.Valve;
import org.apache.catalina.core.StandardHost;
import org.apache.catalina.valves.ErrorReportValve;
import org.springframework.boot.tomcat.servlet.TomcatServletWebServerFactory;
import org.springframework.boot.web.server.WebServerFactoryCustomizer;
import org.springframework.core.Ordered;
import org.springframework.core.annotation.Order;
import org.springframework.stereotype.Component;

/** Puts {@link ProblemValve} in the place of every page that Tomcat would write. */
@Component
@Order(Ordered.LOWEST_PRECEDENCE)
class ProblemTomcat implements WebServerFactoryCustomizer<TomcatServletWebServerFactory> {

    @Override
    public void customize(TomcatServletWebServerFactory factory) {
        factory.addContextCustomizers(context -> {
            Host host = (Host) context.getParent();
            for (Valve valve : host.getPipeline().getValves()) {
                if (valve instanceof ErrorReportValve) {
                    host.getPipeline().removeValve(valve);
                }
            }
            if (host instanceof StandardHost standard) {
                // else the host adds its own behind ours, which would then write first
                standard.setErrorReportValveClass("");
            }
            host.getPipeline().addValve(new ProblemValve());
        });
    }
}
