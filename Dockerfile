# Build: docker build --build-arg REGISTRY=<registry of the .NET images>/ -t curewatch .
ARG REGISTRY

FROM ${REGISTRY}dotnet/sdk:10.0 AS build
WORKDIR /source
COPY . .
RUN dotnet publish src/CureWatch.Service -c Release -o /app

FROM ${REGISTRY}dotnet/runtime:10.0
WORKDIR /app
COPY --from=build /app .
COPY config /config
RUN mkdir /data && chown "$APP_UID" /data
USER $APP_UID
VOLUME /data
HEALTHCHECK --interval=1m CMD ["dotnet", "curewatch.dll", "check", "--config", "/config"]
ENTRYPOINT ["dotnet", "curewatch.dll"]
CMD ["check", "--config", "/config"]
